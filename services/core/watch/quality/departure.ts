/**
 * Whether a value departs from its neighbours in time, and whether what departed lasts.
 *
 * Hampel's rule against the median and median absolute deviation of the last values, with a floor and an allowance
 * for their age, beside a limit on the change since the very last. What lasts is a step and is believed.
 */
import { median, medianAbsoluteDeviation } from 'simple-statistics';
import { HOUR_ms, MINUTE_ms } from '../../model/time.js';
import { QUALITY, type QuantityLimits } from './limits.js';
import type { Point, QuantityState } from './state.js';

/** Median absolute deviation to standard deviation of a normal distribution: 1 / 0.674490 (closed form). */
const TO_DEVIATION = 1.4826;

/**
 * - `usual`: among its neighbours
 * - `returned`: among its neighbours again, after values that departed
 * - `far`: departs from them
 * - `fast`: changed more than can be since the last
 * - `step`: departs, and has lasted: believed from now on
 */
export type Departure = 'usual' | 'returned' | 'far' | 'fast' | 'step';

/** Values of the last hours; the very last one where there is none; none where that is too old. */
function neighboursOf({ recent }: QuantityState, at: number): readonly Point[] {
  const oldest = at - QUALITY.neighbours_h * HOUR_ms;
  const [first] = recent;
  if (first && first[0] >= oldest) return recent;
  const near = recent.filter(([then]) => then >= oldest);
  if (near.length > 0) return near;
  const last = recent.at(-1);
  return last && at - last[0] <= QUALITY.lastServes_h * HOUR_ms ? [last] : [];
}

function isFast(
  at: number,
  value: number,
  [then, last]: Point,
  limits: QuantityLimits,
  wider: number,
): boolean {
  const tenMinutes = Math.max(1, (at - then) / (10 * MINUTE_ms));
  return Math.abs(value - last) > wider * limits.in10Minutes * Math.sqrt(tenMinutes);
}

function isFar(
  at: number,
  value: number,
  near: readonly Point[],
  limits: QuantityLimits,
  wider: number,
): boolean {
  // No value is far from the median that is not far from any of them: spares the sorting.
  if (near.every(([, other]) => Math.abs(value - other) <= limits.floor)) return false;
  const values = near.map(([, other]) => other);
  const age_h = (at - median(near.map(([then]) => then))) / HOUR_ms;
  const scale = TO_DEVIATION * medianAbsoluteDeviation(values);
  const allowed = limits.floor + limits.perHour * age_h + QUALITY.hampel * scale;
  return Math.abs(value - median(values)) > wider * allowed;
}

type Away = NonNullable<QuantityState['away']>;

/** With one more value that departed. */
const departed = (away: Away | null, at: number, value: number): Away => ({
  since: away?.since ?? at,
  count: (away?.count ?? 0) + 1,
  values: [...(away?.values ?? []), [at, value] as Point].slice(-QUALITY.departed),
});

function lasts({ since, count, values }: Away, at: number, limits: QuantityLimits): boolean {
  if (count < 2) return false;
  const away_min = (at - since) / MINUTE_ms;
  if (away_min >= QUALITY.believed_min) return true;
  const levels = values.map(([, value]) => value);
  return away_min >= limits.agree_min && Math.max(...levels) - Math.min(...levels) <= limits.agree;
}

/** Takes a value among those that are believed. */
export function believe(state: QuantityState, at: number, value: number): void {
  state.recent.push([at, value]);
  if (state.recent.length > QUALITY.neighbours) state.recent.shift();
}

/** Holds a value against its neighbours, and takes it among them unless it is `far` or `fast`. */
export function judgeDeparture(
  state: QuantityState,
  at: number,
  value: number,
  limits: QuantityLimits,
): Departure {
  const near = neighboursOf(state, at);
  const last = near.at(-1);
  const wider = at < state.restlessTo ? QUALITY.restless : 1;
  const fast = last !== undefined && isFast(at, value, last, limits, wider);
  if (!fast && !(last && isFar(at, value, near, limits, wider))) {
    const returned = state.away !== null && last !== undefined;
    state.away = null;
    believe(state, at, value);
    return returned ? 'returned' : 'usual';
  }
  state.away = departed(state.away, at, value);
  if (!lasts(state.away, at, limits)) return fast ? 'fast' : 'far';
  state.recent = state.away.values;
  state.away = null;
  state.restlessTo = at + QUALITY.restless_h * HOUR_ms;
  return 'step';
}
