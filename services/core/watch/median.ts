import { median } from 'simple-statistics';

/** Median absolute deviation to standard deviation of a normal distribution: 1 / 0.674490 (closed form). */
const TO_DEVIATION = 1.4826;

/** A middle and how far values stray from it, both robust. */
export interface Level {
  readonly middle: number;
  /** Standard deviation, from the median absolute deviation. */
  readonly deviation: number;
}

/** At least one value. */
export function levelOf(values: readonly number[]): Level {
  const middle = median([...values]);
  const deviation = TO_DEVIATION * median(values.map((value) => Math.abs(value - middle)));
  return { middle, deviation };
}

/** Undefined where there is no value. */
export function medianOf(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : median([...values]);
}
