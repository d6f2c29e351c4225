/**
 * Roots that were followed by looks. A root is lost some time between two looks and is counted at the second, so that
 * times are late by half an interval on average; treatments that are looked at on other days are then late by other
 * amounts.
 */
import { SandlarderError } from '../errors.js';
import { type Count, kaplanMeier, type SurvivalStep } from '../keeping/index.js';

export interface RootsSeen {
  readonly bed: string;
  readonly treatment: string;
  readonly block?: string | undefined;
  /** Since the filling, in any unit: of the look at which they were found lost, or were last seen sound. */
  readonly time: number;
  readonly lost: boolean;
  /** How many, above 0; a fraction where shares were carried over to the roots of a bed. */
  readonly roots: number;
}

/** @throws SandlarderError OUT_OF_DOMAIN, and CONFLICT for a bed with two treatments or blocks */
export function requireSeen(seen: readonly RootsSeen[]): void {
  const beds = new Map<string, RootsSeen>();
  for (const one of seen) {
    if (!(one.time >= 0 && Number.isFinite(one.time)))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `bed "${one.bed}": expected a time of 0 or more, got ${one.time}`,
      );
    if (!(one.roots > 0 && Number.isFinite(one.roots)))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `bed "${one.bed}": expected more than 0 roots, got ${one.roots}`,
      );
    const before = beds.get(one.bed) ?? one;
    for (const key of ['treatment', 'block'] as const)
      if (before[key] !== one[key])
        throw new SandlarderError(
          'CONFLICT',
          `bed "${one.bed}": expected one ${key}, got "${before[key]}" and "${one[key]}"`,
        );
    beds.set(one.bed, before);
  }
}

export const rootsOf = (seen: readonly RootsSeen[]): number =>
  seen.reduce((sum, { roots }) => sum + roots, 0);

/** Times at which any were lost, in order. */
export const lossTimes = (seen: readonly RootsSeen[]): number[] =>
  [...new Set(seen.filter(({ lost }) => lost).map(({ time }) => time))].sort((one, other) => one - other);

export const atRisk = (seen: readonly RootsSeen[], time: number): number =>
  rootsOf(seen.filter((one) => one.time >= time));

export const lostAtTime = (seen: readonly RootsSeen[], time: number): number =>
  rootsOf(seen.filter((one) => one.lost && one.time === time));

/** Share that is kept after each time of loss (Kaplan-Meier, Greenwood; intervals on the scale log(-log)). */
export function keptSteps(seen: readonly RootsSeen[]): SurvivalStep[] {
  const counts = lossTimes(seen).map(
    (time): Count => ({ time, atRisk: atRisk(seen, time), lost: lostAtTime(seen, time) }),
  );
  return kaplanMeier(counts);
}

/** The last step by a time; undefined where nothing was lost by then, so that all are kept. */
export const stepAt = (steps: readonly SurvivalStep[], time: number): SurvivalStep | undefined =>
  steps.findLast((step) => step.time <= time);
