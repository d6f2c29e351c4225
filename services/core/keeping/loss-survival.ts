/**
 * Which share of the roots is left, from counts at looks.
 *
 * Source: E. L. Kaplan & P. Meier, J. Am. Stat. Assoc. 53 (1958) 457-481; standard error after Greenwood 1926; interval
 * on the scale log(-log), after Kalbfleisch & Prentice 1980 (titles from memory), which keeps it within 0 and 1. Roots
 * that were eaten or sold leave the count without being lost. A root is lost some time between two looks; it counts as
 * lost at the second, so that the curve is late by half an interval on average.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { DEVIATIONS_95 } from './loss-interval.js';

export interface Count {
  /** In any unit, later than that of the count before. */
  readonly time: number;
  /** Roots looked at, above 0. */
  readonly atRisk: number;
  /** Of these, lost since the count before. */
  readonly lost: number;
}

export interface SurvivalStep extends Count {
  /** Share that is left after the time, 0..1. */
  readonly survival: number;
  /** Of the share; null once none is left, where Greenwood's formula says nothing. */
  readonly standardError: number | null;
  /** Ends of the 95 % interval; null where none, or all, have been lost: the counts do not tell. */
  readonly low: number | null;
  readonly high: number | null;
}

/** What is left, and Greenwood's sum, from which its error follows. */
export interface Left {
  readonly survival: number;
  readonly sum: number;
}

export const ALL_LEFT: Left = Object.freeze({ survival: 1, sum: 0 });

/** @param looked above 0; of these lost since `before` */
export const leftAfter = (before: Left, { looked, lost }: { looked: number; lost: number }): Left => ({
  survival: before.survival * (1 - lost / looked),
  sum: before.sum + (lost === 0 ? 0 : lost / (looked * (looked - lost))),
});

export function stepOf(count: Count, { survival, sum }: Left): SurvivalStep {
  const standardError = survival === 0 ? null : survival * Math.sqrt(sum);
  return { ...count, survival, standardError, ...intervalOf(survival, sum) };
}

/**
 * @throws SandlarderError OUT_OF_DOMAIN for counts that do not fit together or are not in order of time
 */
export function kaplanMeier(counts: readonly Count[]): SurvivalStep[] {
  requireCounts(counts);
  let left = ALL_LEFT;
  return counts.map((count) => {
    left = leftAfter(left, { looked: count.atRisk, lost: count.lost });
    return stepOf(count, left);
  });
}

/** @throws SandlarderError OUT_OF_DOMAIN as above */
export function requireCounts(counts: readonly Count[]): void {
  counts.forEach((count, index) => {
    requireCount(count, counts[index - 1]);
  });
}

function requireCount({ time, atRisk, lost }: Count, before: Count | undefined): void {
  requireInDomain('roots looked at', atRisk, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('roots lost', lost, 0, atRisk);
  if (before === undefined ? Number.isFinite(time) : time > before.time && Number.isFinite(time)) return;
  throw new SandlarderError(
    'OUT_OF_DOMAIN',
    `time of a count: expected a number later than ${before?.time ?? 'nothing'}, got ${time}`,
  );
}

function intervalOf(survival: number, sum: number): { low: number | null; high: number | null } {
  if (!(survival > 0 && survival < 1)) return { low: null, high: null };
  const spread = (DEVIATIONS_95 * Math.sqrt(sum)) / -Math.log(survival);
  return { low: survival ** Math.exp(spread), high: survival ** Math.exp(-spread) };
}

/**
 * When no more than a share is left.
 *
 * @param share 0.5 gives the median
 * @returns time of the first count after which so few are left; undefined where more are left
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function keptUntil(steps: readonly SurvivalStep[], share: number): number | undefined {
  requireInDomain('share', share, 0, 1);
  return steps.find(({ survival }) => survival <= share)?.time;
}
