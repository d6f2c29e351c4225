/** What goes back to whoever answered. */
import {
  catalogueOf,
  type Fitted,
  findingSaid,
  foundExample,
  joined,
  laterExample,
  measured,
  okExample,
  plainName,
  say,
} from '../languages/index.js';
import { QUIET_h, type UnclearReason, type UnderstoodAnswer } from './answer.js';

/** Hours in an example: about until the evening. */
const EXAMPLE_h = 6;

/**
 * Says what was written down: `Thanks. Written down for Pit A: ROT, DAMP.` It names the beds, so that a wrong number
 * is noticed.
 *
 * @param beds names of the beds whose alarms were answered; they do not matter where messages are stopped
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function thanksMessage(answer: UnderstoodAnswer, beds: readonly string[], language: string): Fitted {
  const catalogue = catalogueOf(language);
  const named = joined(catalogue, [...new Set(beds.map(plainName))]);
  if (answer.kind === 'stop') return measured(say(catalogue, 'thanks.stop'));
  if (answer.kind === 'seen') return measured(say(catalogue, 'thanks.seen', { beds: named }));
  if (answer.kind === 'quiet')
    return measured(say(catalogue, 'thanks.quiet', { beds: named, hours: answer.hours }));
  const findings = joined(
    catalogue,
    answer.findings.map((finding) => findingSaid(catalogue, finding)),
  );
  const key = answer.repacked ? 'thanks.repacked' : 'thanks.found';
  return measured(say(catalogue, key, { beds: named, findings }));
}

/**
 * Says how to answer so that it is understood.
 *
 * @param number the short number to show in the examples; none where only one alarm is open
 * @throws SandlarderError OUT_OF_DOMAIN for a language that there is not
 */
export function notUnderstoodMessage(
  reason: UnclearReason,
  { language, number }: { readonly language: string; readonly number?: number | undefined },
): Fitted {
  const catalogue = catalogueOf(language);
  const numbers = number === undefined ? [] : [number];
  const later = laterExample(catalogue, numbers, EXAMPLE_h);
  const found = foundExample(catalogue, 'rot', numbers);
  if (reason === 'no-hours' || reason === 'hours-out-of-range')
    return measured(say(catalogue, 'notUnderstoodHours', { ...QUIET_h, later }));
  if (reason === 'no-finding') {
    const nothing = foundExample(catalogue, 'nothing', numbers);
    return measured(say(catalogue, 'notUnderstoodFinding', { found, nothing }));
  }
  const ok = okExample(catalogue, numbers);
  return measured(say(catalogue, 'notUnderstood', { ok, found, later }));
}
