/**
 * Exponentially weighted moving average chart.
 *
 * z_i = weight x_i + (1 - weight) z_(i-1), z_0 the target. Its standard deviation after i observations is
 * sigma sqrt(weight / (2 - weight) (1 - (1 - weight)^(2 i))), for independent observations of deviation sigma.
 * Source: S. W. Roberts, Technometrics 1 (1959) 239-250 (from memory); NIST/SEMATECH e-Handbook 6.3.2.4.
 */
import { z } from 'zod';
import { requireInDomain } from '../../errors.js';
import { requireFinite } from './checks.js';

export const ewmaStateSchema = z
  .strictObject({
    /** The smoothed value, in the unit of the observations. */
    value: z.number(),
    /** Observations taken. */
    taken: z.number().int().nonnegative(),
  })
  .readonly();

/** As it stands in a checkpoint. */
export type EwmaState = z.output<typeof ewmaStateSchema>;

export interface EwmaDesign {
  /** Mean in control, in the unit of the observations. */
  readonly target: number;
  /** Standard deviation of one observation, in the same unit, above 0. */
  readonly deviation: number;
  /** Weight of the newest observation, in [0.001, 1]. */
  readonly weight: number;
  /** Half width of the limits in standard deviations of the smoothed value, above 0; 3 is usual. */
  readonly width: number;
}

/** Limits, in the unit of the observations: what lies outside them is a signal. */
export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** The smallest weight that is taken: it remembers some thousand observations. */
const WEIGHT_LEAST = 0.001;

/**
 * A chart before its first observation.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a target that is not finite
 */
export function startEwma(target: number): EwmaState {
  requireFinite('target', target);
  return Object.freeze({ value: target, taken: 0 });
}

/**
 * The chart after one more observation.
 *
 * @param observation in the unit of the target; for one that is missing, do not step
 * @param weight of the newest observation, in [0.001, 1]
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function stepEwma(state: EwmaState, observation: number, weight: number): EwmaState {
  requireFinite('observation', observation);
  requireInDomain('weight', weight, WEIGHT_LEAST, 1);
  const value = weight * observation + (1 - weight) * state.value;
  return Object.freeze({ value, taken: state.taken + 1 });
}

/**
 * Exact limits after `taken` observations: narrow at first, the asymptotic ones in the long run.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, also before the first observation
 */
export function ewmaLimits(design: EwmaDesign, taken: number): Limits {
  requireInDomain('taken', taken, 1, Number.MAX_SAFE_INTEGER);
  const settled = 1 - (1 - design.weight) ** (2 * taken);
  return limitsAt(design, Math.sqrt(settled));
}

/**
 * Limits in the long run, target -+ width deviation sqrt(weight / (2 - weight)).
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function asymptoticEwmaLimits(design: EwmaDesign): Limits {
  return limitsAt(design, 1);
}

/** Whether the smoothed value lies outside the limits. */
export function isOutside(state: EwmaState, { low, high }: Limits): boolean {
  return !(state.value >= low && state.value <= high);
}

/** @param share of the asymptotic standard deviation that is reached */
function limitsAt({ target, deviation, weight, width }: EwmaDesign, share: number): Limits {
  requireFinite('target', target);
  requireInDomain('deviation', deviation, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('weight', weight, WEIGHT_LEAST, 1);
  requireInDomain('width', width, Number.MIN_VALUE, 100);
  const half = width * deviation * Math.sqrt(weight / (2 - weight)) * share;
  return { low: target - half, high: target + half };
}
