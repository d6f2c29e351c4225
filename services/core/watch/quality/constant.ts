/**
 * A value that stays the very same for so long that it is not measured.
 *
 * How long that is depends on the probe: one that tells its values in steps of 0.5 °C is rightly constant for days
 * in deep sand, one whose own noise is as wide as its steps never is.
 */
import { DAY_ms, HOUR_ms } from '../../model/time.js';
import type { FlaggedQuantity } from '../flag.js';
import { LIMITS, QUALITY } from './limits.js';
import { remembered } from './rounding.js';
import type { QualityState, QuantityState } from './state.js';

/** Differences below are arithmetic, not measurement. °C, %RH. */
const LEAST_DIFFERENCE = 0.001;

const isOfSteps = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < LEAST_DIFFERENCE;

/** The steps in which a probe tells its values: the smallest that was seen, or the coarsest that its only value can be of. */
const resolutionOf = ({ resolution }: QuantityState, value: number): number =>
  resolution ?? QUALITY.steps.find((step) => isOfSteps(value, step)) ?? QUALITY.finestStep;

/** Learns the resolution from a value that is believed and the one before it. */
export function learnResolution(state: QuantityState, before: number | undefined, value: number): void {
  if (before === undefined) return;
  const difference = Math.abs(value - before);
  if (difference < LEAST_DIFFERENCE || difference >= (state.resolution ?? Number.POSITIVE_INFINITY)) return;
  state.resolution = remembered(difference);
}

/** Counts how long the value has been the same. */
export function countSame(state: QuantityState, at: number, value: number): void {
  const { same } = state;
  if (same && same.value === value) same.count += 1;
  else state.same = { value, since: at, count: 1 };
}

/**
 * Samples of the same value that a probe of this scatter does not give. Noise as wide as a step repeats a value with a
 * chance of 0.38 at the most, noise of half a step with 0.68 (normal distribution): 1e-10 and 1e-8 for so many.
 */
function unlikelySamples({ scatter }: QuantityState, resolution: number): number {
  if (scatter.learned_h < QUALITY.scatterLearns_h) return Number.POSITIVE_INFINITY;
  if (scatter.own >= resolution) return QUALITY.livelyStuckSamples;
  return scatter.own >= resolution / 2 ? 2 * QUALITY.livelyStuckSamples : Number.POSITIVE_INFINITY;
}

/** Whether the value has been the same for too long. */
export function isStuck(probe: QualityState, quantity: FlaggedQuantity, at: number): boolean {
  const state = probe[quantity];
  const { same } = state;
  if (!same || same.count < QUALITY.stuckSamples) return false;
  const constant_h = (at - same.since) / HOUR_ms;
  if (!(constant_h > QUALITY.livelyStuck_h)) return false;
  const resolution = resolutionOf(state, same.value);
  const full = quantity === 'humidity' && same.value >= QUALITY.full_RH;
  if (!full && same.count >= unlikelySamples(state, resolution)) return true;
  if (quantity === 'humidity' && same.value >= QUALITY.saturated_RH)
    return constant_h > QUALITY.saturated_h[probe.place];
  const quietest_h =
    (QUALITY.stuckDays * (resolution / LIMITS[probe.place][quantity].quietest) * DAY_ms) / HOUR_ms;
  return constant_h > Math.max(QUALITY.stuck_h, quietest_h);
}
