/** What a sieved and a weighed sample of the sand say before it is filled in. */
import type { HandAnswers } from '../model/readiness.js';
import { type ReadinessItem, withLimits, yesOrNo } from './readiness-item.js';
import { type LimitsInForce, sandLimit } from './readiness-limits.js';
import { judgeSand } from './sand-verdict.js';
import { waterOf } from './sand-water.js';

/**
 * Grains by the sieving where there is one, else by what was answered; moisture by the weighing alone.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES for a sieving or weighing that cannot be
 */
export function itemsOfSamples(answers: HandAnswers, limits: LimitsInForce): ReadinessItem[] {
  return [grains(answers, limits), moisture(answers, limits)];
}

const GRAIN_LIMITS = [
  'sand_fines_most_percent',
  'sand_median_least_mm',
  'sand_median_most_mm',
  'sand_gravel_most_percent',
] as const;

function grains({ sieving, sandSieved }: HandAnswers, limits: LimitsInForce): ReadinessItem {
  const asked = {
    id: 'sand-grains',
    question: 'Is the sand sieved: medium grains, without dirt and stones?',
    reason: 'dirt and dust hold water, coarse sand lets air and weevils through, stones wound roots',
    answeredBy: 'hand',
  } as const;
  if (!sieving)
    return yesOrNo({ ...asked, limit: 'yes' }, 'common practice, no source: medium sand, sieved', sandSieved);
  const {
    sand_fines_most_percent: fines,
    sand_median_least_mm: least,
    sand_median_most_mm: most,
  } = limits.sand;
  const { sentence, verdict } = judgeSand(sieving, limits.sand);
  return withLimits(
    {
      ...asked,
      limit: `median ${least} to ${most} mm, fines at most ${fines} %, gravel at most ${limits.sand.sand_gravel_most_percent} %`,
    },
    GRAIN_LIMITS.map((name) => sandLimit(name, limits)),
    { measure: sentence, state: stateOf(verdict) },
  );
}

function stateOf(verdict: ReturnType<typeof judgeSand>['verdict']): ReadinessItem['state'] {
  if (verdict === 'unknown') return 'unknown';
  return verdict === 'good' ? 'met' : 'not met';
}

function moisture({ weighing }: HandAnswers, limits: LimitsInForce): ReadinessItem {
  const found = weighing && waterOf(weighing, limits.sand).moisture;
  return withLimits(
    {
      id: 'sand-moisture',
      question: 'How much water is in the sand, by weighing a sample before and after drying?',
      limit: `at most ${limits.sand.sand_dry_enough_percent} % of its dry mass, with its uncertainty`,
      reason: 'damp sand sprouts and rots roots, and no probe tells how damp it is',
      answeredBy: 'hand',
    },
    [sandLimit('sand_dry_enough_percent', limits)],
    found
      ? { measure: found.sentence, state: found.dryEnough }
      : { measure: 'not weighed', state: 'unknown' },
  );
}
