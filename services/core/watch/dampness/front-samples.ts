/** The samples around the hour that is judged, and what they tell of how a value came to where it is. */
import { HOUR_ms, MINUTE_ms } from '../../model/time.js';
import type { Sample } from '../watch.js';
import { toHundredths } from './hours.js';
import { DAMPNESS } from './parameters.js';
import type { DampProbeState } from './state.js';

export type Tail = DampProbeState['tail'];

/** The kept samples with the hour's, thinned, of the last hours only. */
export function withSamples(tail: Tail, samples: readonly Sample[], end: number): Tail {
  const joined = [...tail];
  for (const { at, temperature, humidity } of samples) {
    const last = joined.at(-1);
    if (last && !(at - last[0] >= DAMPNESS.tailSpacing_min * MINUTE_ms)) continue;
    joined.push([at, rounded(temperature), rounded(humidity)]);
  }
  // One hour more than a front takes: what it was before is needed too.
  const from = end - (DAMPNESS.front_h + 1) * HOUR_ms;
  return joined.filter(([at]) => at >= from).slice(-DAMPNESS.tail);
}

const rounded = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? toHundredths(value) : null;

/** The values of one quantity in the tail, in order of time. */
export function seriesOf(tail: Tail, quantity: 'temperature' | 'humidity'): (readonly [number, number])[] {
  return tail.flatMap(([at, temperature, humidity]) => {
    const value = quantity === 'temperature' ? temperature : humidity;
    return value === null ? [] : [[at, value] as const];
  });
}

export interface Jump {
  /** Index of the first value after it. */
  readonly at: number;
  readonly size: number;
}

/** The largest change from one value to the next. */
export function largestJump(series: readonly (readonly [number, number])[]): Jump {
  let best: Jump = { at: 0, size: 0 };
  for (let at = 1; at < series.length; at += 1) {
    const size = (series[at]?.[1] ?? 0) - (series[at - 1]?.[1] ?? 0);
    if (Math.abs(size) > Math.abs(best.size)) best = { at, size };
  }
  return best;
}
