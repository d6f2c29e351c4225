/**
 * Means and sums of squares that keep their digits where values are large and differ little: deviations from a value
 * among them are taken first, which is exact or nearly so, and all sums are compensated (Kahan-Babuska, by
 * simple-statistics). The sum of squares is that of the corrected two-pass algorithm (T. F. Chan, G. H. Golub & R. J.
 * LeVeque 1983, Am. Stat. 37, 242-247, from memory).
 */
import { sum } from 'simple-statistics';
import { SandlarderError } from '../errors.js';

export interface Moments {
  readonly n: number;
  readonly mean: number;
  /** Of deviations from the mean. */
  readonly squares: number;
}

export const sumOf = (values: readonly number[]): number => (values.length === 0 ? 0 : sum([...values]));

/** @throws SandlarderError TOO_FEW_SAMPLES without values */
export function momentsOf(values: readonly number[]): Moments {
  const [origin] = values;
  if (origin === undefined) throw new SandlarderError('TOO_FEW_SAMPLES', 'mean: expected values, got none');
  const n = values.length;
  const moved = values.map((value) => value - origin);
  const middle = sumOf(moved) / n;
  const deviations = moved.map((value) => value - middle);
  const rest = sumOf(deviations);
  const squares = sumOf(deviations.map((value) => value * value)) - (rest * rest) / n;
  return { n, mean: origin + middle, squares: Math.max(0, squares) };
}

/** Variance with n - 1. @throws SandlarderError TOO_FEW_SAMPLES for fewer than two values */
export function varianceOf({ n, squares }: Moments): number {
  if (!(n >= 2))
    throw new SandlarderError('TOO_FEW_SAMPLES', `variance: expected at least 2 values, got ${n}`);
  return squares / (n - 1);
}

/** Values less the first of all, so that what follows loses no digits. */
export function moved(values: readonly number[]): { readonly origin: number; readonly values: number[] } {
  const origin = values[0] ?? 0;
  return { origin, values: values.map((value) => value - origin) };
}

/** What rounding may leave of a deviation, as a share of the value: some units of the last place (IEEE 754 binary64). */
const ROUNDING = 16 * Number.EPSILON;

/** A sum of squared deviations of values; 0 where it is no more than their rounding leaves. */
export function beyondRounding(squares: number, values: readonly number[]): number {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return squares > values.length * (ROUNDING * largest) ** 2 ? squares : 0;
}
