/** When a probe can be judged at the earliest: five readings over five minutes, and as long as its bath takes. */
import { type BenchReading, READINGS_LEAST, SPAN_MOST_min, WINDOWS_min } from './settling-window.js';

export interface Earliest {
  /** Since the probe went into the bath, or since its first reading where that is not known. */
  readonly needs_min: number;
  /** s after the last reading. */
  readonly left_s: number;
}

/**
 * The earliest time at which there is a window to judge; absent where the readings are too far apart for any.
 *
 * @param inBath in order of time
 * @param since ms, when the probe went into the bath, where known
 * @param soak_s what is left of the shortest soak after the last reading
 */
export function earliestFor(
  inBath: readonly BenchReading[],
  since: number | undefined,
  soak_s: number,
): Earliest | undefined {
  const first = inBath[0]?.time ?? since ?? 0;
  const last = inBath.at(-1)?.time ?? first;
  const gone_s = (last - first) / 1000;
  const pace_s = inBath.length < 2 ? 0 : gone_s / (inBath.length - 1);
  const span_s = Math.max(60 * WINDOWS_min[0], (READINGS_LEAST - 1) * pace_s);
  if (!(span_s <= 60 * SPAN_MOST_min)) return undefined;
  const left_s = Math.max(0, span_s - gone_s, soak_s);
  return { needs_min: Math.round(((last - (since ?? first)) / 1000 + left_s) / 60), left_s };
}
