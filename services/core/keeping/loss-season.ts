/**
 * Loss by cause over a season: the share of the roots that each cause has taken by the last look, as they compete for
 * the same roots (cumulative incidence, O. Aalen & S. Johansen 1978, from memory).
 *
 * The interval is the score interval of as many roots as would know the survival as well as the counts do (effective
 * sample size, S. J. Cutler & F. Ederer 1958, from memory): an approximation.
 */
import { survivalOf } from './loss.js';
import { type ShareInterval, wilsonInterval } from './loss-interval.js';
import { LOSS_CAUSES, type LossCause, type LossLook } from './loss-look.js';
import { type LossRun, lossRuns } from './loss-standing.js';
import type { SurvivalStep } from './loss-survival.js';

export interface SeasonLoss extends ShareInterval {
  readonly cause: LossCause;
}

/**
 * @param filledAt ms, before the first look
 * @param looks in order of time
 * @returns causes that were counted at least once; empty without looks
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function lossOverSeason(filledAt: number, looks: readonly LossLook[]): SeasonLoss[] {
  const steps = survivalOf(filledAt, looks);
  const last = steps.at(-1);
  if (!last) return [];
  const runs = lossRuns(filledAt, looks);
  const asKnownBy = effectiveRoots(last, looks);
  return LOSS_CAUSES.filter((cause) => looks.some(({ lost }) => lost[cause] !== undefined)).map((cause) => ({
    cause,
    ...wilsonInterval(incidenceOf(cause, runs) * asKnownBy, asKnownBy),
  }));
}

/** A root with two causes is shared between them, so that the causes add up to the loss. */
function incidenceOf(cause: LossCause, runs: readonly LossRun[]): number {
  let left = 1;
  let taken = 0;
  for (const { looks } of runs) {
    const last = looks.at(-1);
    if (!last) continue;
    const { looked, lost, byCause } = last.pool;
    const all = LOSS_CAUSES.reduce((sum, each) => sum + byCause[each], 0);
    taken += all === 0 ? 0 : (left * (lost / looked) * byCause[cause]) / all;
    left *= 1 - lost / looked;
  }
  return Math.min(1, taken);
}

/** Where nothing, or everything, was lost the fewest that were looked at stand in. */
function effectiveRoots({ survival, standardError }: SurvivalStep, looks: readonly LossLook[]): number {
  if (standardError === null || standardError === 0) return Math.min(...looks.map(({ looked }) => looked));
  return (survival * (1 - survival)) / standardError ** 2;
}
