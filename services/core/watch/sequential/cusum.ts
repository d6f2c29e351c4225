/**
 * Tabular two-sided cumulative sum.
 *
 * high_i = max(0, high_(i-1) + x_i - target - slack), low_i = max(0, low_(i-1) + target - slack - x_i); a signal
 * where either is above the limit. Source: E. S. Page, Biometrika 41 (1954) 100-115 (from memory);
 * NIST/SEMATECH e-Handbook 6.3.2.3.
 */
import { z } from 'zod';
import { requireInDomain } from '../../errors.js';
import { requireFinite } from './checks.js';

const sum = z.number().nonnegative();
const count = z.number().int().nonnegative();

export const cusumStateSchema = z
  .strictObject({
    /** Evidence for a mean above the target, in the unit of the observations. */
    high: sum,
    /** Evidence for a mean below the target, likewise. */
    low: sum,
    /** Observations taken. */
    taken: count,
    /** Observations since `high`, and `low`, was last 0: the shift began about so long ago. */
    highSince: count,
    lowSince: count,
    /** Number of the observation, the first is 1, at which the first signal came; null where none has. */
    signalAt: count.nullable(),
  })
  .readonly();

/** As it stands in a checkpoint. */
export type CusumState = z.output<typeof cusumStateSchema>;

/** All in the unit of the observations. */
export interface CusumDesign {
  /** Mean in control. */
  readonly target: number;
  /** Half the shift that shall be found soonest, at least 0; half a standard deviation is usual. */
  readonly slack: number;
  /** Decision limit, above 0; four to five standard deviations are usual. */
  readonly limit: number;
}

/** A chart before its first observation, and after a signal has been dealt with. */
export function startCusum(): CusumState {
  return Object.freeze({ high: 0, low: 0, taken: 0, highSince: 0, lowSince: 0, signalAt: null });
}

/**
 * The chart after one more observation. The sums go on past a signal; who begins anew takes `startCusum()`.
 *
 * @param observation in the unit of the design; for one that is missing, do not step
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function stepCusum(state: CusumState, observation: number, design: CusumDesign): CusumState {
  requireFinite('observation', observation);
  requireDesign(design);
  const above = observation - design.target;
  const high = Math.max(0, state.high + above - design.slack);
  const low = Math.max(0, state.low - above - design.slack);
  const taken = state.taken + 1;
  const signals = high > design.limit || low > design.limit;
  return Object.freeze({
    high,
    low,
    taken,
    highSince: high > 0 ? state.highSince + 1 : 0,
    lowSince: low > 0 ? state.lowSince + 1 : 0,
    signalAt: state.signalAt ?? (signals ? taken : null),
  });
}

function requireDesign({ target, slack, limit }: CusumDesign): void {
  requireFinite('target', target);
  requireInDomain('slack', slack, 0, Number.MAX_VALUE);
  requireInDomain('limit', limit, Number.MIN_VALUE, Number.MAX_VALUE);
}
