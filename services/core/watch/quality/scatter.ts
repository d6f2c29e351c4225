/**
 * A probe's scatter from sample to sample, against its own.
 *
 * Each value is held against the straight line between the ones before and after it, so that what changes steadily
 * leaves nothing; the median of an hour leaves out single spikes, and most of a day is looked at as a whole.
 */
import { median } from 'simple-statistics';
import { HOUR_ms } from '../../model/time.js';
import { QUALITY, type QuantityLimits } from './limits.js';
import { roughly } from './rounding.js';
import type { QuantityState } from './state.js';

/** Median of the absolute value of a normal distribution, in standard deviations. */
const MEDIAN_ABSOLUTE = 0.67449;

/** Neighbours further apart tell of the day, not of the probe. */
const APART_ms = 3 * HOUR_ms;

/**
 * Takes the next value.
 *
 * @returns how far the value before it lies off the line between its neighbours, in the unit of the quantity, scaled
 *   so that independent noise gives its own size; undefined where there are no such neighbours
 */
export function offTheLine({ measured }: QuantityState, at: number, value: number): number | undefined {
  const [first, middle] = measured;
  measured.push([at, value]);
  if (measured.length > 2) measured.shift();
  if (!first || !middle || !(at - first[0] <= APART_ms) || !(at > middle[0])) return undefined;
  const share = (middle[0] - first[0]) / (at - first[0]);
  const off = middle[1] - (first[1] + share * (value - first[1]));
  return Math.abs(off) / Math.sqrt(1 + share ** 2 + (1 - share) ** 2);
}

/** What scatter is held against: the probe's own, but no less than a sound sensor has or its steps make. */
const ownScatter = ({ scatter, resolution }: QuantityState, { scatterLeast }: QuantityLimits): number =>
  Math.max(scatter.own, scatterLeast, (resolution ?? 0) / 2);

function learn({ scatter }: QuantityState, hour: number, own: number): void {
  if (scatter.learned_h >= QUALITY.scatterLearns_h && hour > QUALITY.unlearned * own) return;
  const memory_h =
    scatter.learned_h < QUALITY.scatterPlain_h ? scatter.learned_h + 1 : QUALITY.scatterMemory_h;
  scatter.own = Number((scatter.own + (hour - scatter.own) / memory_h).toPrecision(6));
  scatter.learned_h += scatter.learned_h < QUALITY.scatterPlain_h ? 1 : 0;
}

/** Closes an hour: remembers and learns its scatter. `offs` is what `offTheLine` gave. */
export function closeScatter(state: QuantityState, offs: readonly number[], limits: QuantityLimits): void {
  if (offs.length === 0) return;
  const hour = roughly(median([...offs]) / MEDIAN_ABSOLUTE);
  state.scatter.hours.push(hour);
  if (state.scatter.hours.length > QUALITY.scatter_h) state.scatter.hours.shift();
  learn(state, hour, ownScatter(state, limits));
}

function noisyFrom(state: QuantityState, limits: QuantityLimits): number {
  return Math.min(QUALITY.noisy * ownScatter(state, limits), limits.scatterMost);
}

/** How noisy the last hours with data were. */
export interface Noise {
  /** How many were. */
  readonly hours: number;
  /** Most of enough hours: the probe is noisy. */
  readonly established: boolean;
  /** So many that it is not over. */
  readonly lasting: boolean;
}

/** Looks at the last hours as a whole. */
export function noiseOf(state: QuantityState, limits: QuantityLimits): Noise {
  const { hours, learned_h } = state.scatter;
  const limit = noisyFrom(state, limits);
  const noisy = hours.filter((hour) => hour > limit).length;
  const known = hours.length >= QUALITY.scatterNeeds_h && learned_h >= QUALITY.scatterLearns_h;
  return {
    hours: noisy,
    established: known && noisy > hours.length / 2,
    lasting: noisy > hours.length / 4,
  };
}
