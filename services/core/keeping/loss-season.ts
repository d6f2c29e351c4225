/**
 * Loss by cause over a season: the share of the roots that each cause has taken by the last look, as they compete for
 * the same roots (cumulative incidence, O. Aalen & S. Johansen 1978, from memory).
 *
 * The interval is the score interval of as many roots as would know the survival as well as the counts do (effective
 * sample size, S. J. Cutler & F. Ederer 1958, from memory): an approximation.
 */
import { LOSS_CAUSES, type LossCause, type LossLook, lostAt, survivalOf } from './loss.js';
import { type ShareInterval, wilsonInterval } from './loss-interval.js';
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
  const asKnownBy = effectiveRoots(last, looks);
  return LOSS_CAUSES.filter((cause) => looks.some(({ lost }) => lost[cause] !== undefined)).map((cause) => ({
    cause,
    ...wilsonInterval(incidenceOf(cause, steps, looks) * asKnownBy, asKnownBy),
  }));
}

/** A root with two causes is shared between them, so that the causes add up to the loss. */
function incidenceOf(cause: LossCause, steps: readonly SurvivalStep[], looks: readonly LossLook[]): number {
  const shares = looks.map((look, index) => {
    const before = steps[index - 1]?.survival ?? 1;
    const all = LOSS_CAUSES.reduce((sum, each) => sum + (look.lost[each] ?? 0), 0);
    return all === 0 ? 0 : (before * (lostAt(look) / look.looked) * (look.lost[cause] ?? 0)) / all;
  });
  return Math.min(
    1,
    shares.reduce((sum, share) => sum + share, 0),
  );
}

/** Where nothing, or everything, was lost the fewest that were looked at stand in. */
function effectiveRoots({ survival, standardError }: SurvivalStep, looks: readonly LossLook[]): number {
  if (standardError === null || standardError === 0) return Math.min(...looks.map(({ looked }) => looked));
  return (survival * (1 - survival)) / standardError ** 2;
}
