import { median } from 'simple-statistics';

/** Median absolute deviation to standard deviation of a normal distribution: 1 / 0.674490 (closed form). */
const TO_DEVIATION = 1.4826;

/** Median of at least one value; simple-statistics throws for none. */
export function medianOf(values: readonly number[]): number {
  return median([...values]);
}

/** Standard deviation of at least one value, robustly: from the median absolute deviation. */
export function deviationOf(values: readonly number[]): number {
  const middle = medianOf(values);
  return TO_DEVIATION * medianOf(values.map((value) => Math.abs(value - middle)));
}
