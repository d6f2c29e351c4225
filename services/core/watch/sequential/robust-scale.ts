/** Middle and spread that up to half of the values cannot carry away. */
import { median, medianAbsoluteDeviation } from 'simple-statistics';
import { requireSamples } from './checks.js';

/**
 * Median absolute deviation to standard deviation of a normal distribution: 1 / 0.674489750196... , the reciprocal
 * of the normal distribution's upper quartile (closed form).
 */
export const DEVIATION_PER_MAD = 1.482602218505602;

export interface RobustScale {
  readonly median: number;
  /** Median absolute deviation from the median, as it is. */
  readonly medianAbsoluteDeviation: number;
  /** Standard deviation of the normal distribution with that median absolute deviation. */
  readonly deviation: number;
}

/**
 * Median, median absolute deviation, and the standard deviation that it stands for; all in the unit of the values.
 * More than half equal values give a deviation of 0: who divides by it sets a floor.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES for no value; OUT_OF_DOMAIN for a value that is not finite
 */
export function robustScale(values: readonly number[]): RobustScale {
  requireSamples('values', values, 1);
  const spread = medianAbsoluteDeviation([...values]);
  return {
    median: median([...values]),
    medianAbsoluteDeviation: spread,
    deviation: DEVIATION_PER_MAD * spread,
  };
}
