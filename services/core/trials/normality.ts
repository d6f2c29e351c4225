/**
 * Whether values look drawn from a normal distribution of unknown mean and variance: T. W. Anderson & D. A. Darling's A
 * squared with the correction and tail of R. B. D'Agostino & M. A. Stephens, Goodness-of-Fit Techniques, 1986, table 4.9
 * (from memory; held against an independent implementation in the tests).
 */
import { SandlarderError } from '../errors.js';
import { normalBelow } from './distributions.js';
import { momentsOf, sumOf, varianceOf } from './moments.js';

/** Below, the tail is not given. */
export const FEWEST_FOR_NORMALITY = 8;

export interface Normality {
  /** Corrected for few values. */
  readonly a: number;
  readonly p: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES for fewer than eight values, or equal ones */
export function andersonDarling(values: readonly number[]): Normality {
  const n = values.length;
  const moments = momentsOf(values);
  if (!(n >= FEWEST_FOR_NORMALITY && moments.squares > 0))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `values: expected at least ${FEWEST_FOR_NORMALITY} that are not all equal, got ${n}`,
    );
  const sd = Math.sqrt(varianceOf(moments));
  const scores = values.map((value) => (value - moments.mean) / sd).sort((one, other) => one - other);
  const terms = scores.map(
    (score, at) =>
      (2 * at + 1) * (Math.log(normalBelow(score)) + Math.log(normalBelow(-(scores[n - 1 - at] as number)))),
  );
  const a = (-n - sumOf(terms) / n) * (1 + 0.75 / n + 2.25 / n ** 2);
  return { a, p: tailOf(a) };
}

function tailOf(a: number): number {
  if (a < 0.2) return 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  if (a < 10) return Math.exp(1.2937 - 5.709 * a + 0.0186 * a * a);
  return 3.7e-24;
}
