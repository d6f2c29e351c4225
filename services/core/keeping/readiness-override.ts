/** Somebody has a bed filled that was not found ready: what was said stays beside the verdict, for good. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { OVERRIDE_REASON, type Override, type OverrideRecord } from '../model/readiness.js';
import { LATEST_TIME_ms } from '../model/time.js';
import type { Readiness } from './readiness.js';
import { readinessSentence } from './readiness-words.js';

/**
 * Adds an override; verdict, items and the overrides before it stay as they were.
 *
 * @throws SandlarderError CONFLICT for a bed that is ready; OUT_OF_DOMAIN for a time before the judgement or the
 *   override before, nobody's name, or a reason that is not of 10 to 500 characters
 */
export function overrideReadiness(readiness: Readiness, override: Override): Readiness {
  const { verdict, notMet, unknown } = readiness;
  if (verdict === 'ready')
    throw new SandlarderError(
      'CONFLICT',
      'expected a bed that is not ready to be overridden, got one that is ready',
    );
  const since = readiness.overrides.at(-1)?.at ?? readiness.at;
  requireInDomain('time of the override, ms,', override.at, since, LATEST_TIME_ms);
  const [by, reason] = [override.by.trim(), override.reason.trim()];
  requireInDomain('characters of the name', by.length, 1, 100);
  requireInDomain('characters of the reason', reason.length, OVERRIDE_REASON.least, OVERRIDE_REASON.most);
  const added: OverrideRecord = { by, at: override.at, reason, verdict, points: [...notMet, ...unknown] };
  const overrides = [...readiness.overrides, added];
  return { ...readiness, overrides, sentence: readinessSentence({ ...readiness, overrides }) };
}
