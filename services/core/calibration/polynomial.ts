/** A fitted polynomial at a value, and how uncertain it is there. */
import { requireInDomain } from '../errors.js';

/** As a fit has it; coefficients of 1, x - centre, (x - centre)^2. */
export interface UncertainPolynomial {
  readonly centre: number;
  readonly coefficients: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** A variance may come out below 0 by this share of the terms that it is summed from: rounding, not a bad matrix. */
const ROUNDING = 1e-9;

const gradientAt = ({ centre, coefficients }: UncertainPolynomial, x: number): number[] =>
  coefficients.map((_, power) => (x - centre) ** power);

/** Value at x, in the unit of the coefficients. */
export function polynomialAt(polynomial: UncertainPolynomial, x: number): number {
  const gradient = gradientAt(polynomial, x);
  return polynomial.coefficients.reduce((sum, value, at) => sum + value * (gradient[at] as number), 0);
}

/**
 * Standard uncertainty of the value at x, with the correlations of the coefficients [JCGM 100 5.2.2, H.3.4].
 *
 * @throws SandlarderError OUT_OF_DOMAIN where the covariance is none
 */
export function polynomialUncertaintyAt(polynomial: UncertainPolynomial, x: number): number {
  const gradient = gradientAt(polynomial, x);
  let variance = 0;
  let size = 0;
  polynomial.covariance.forEach((row, one) => {
    row.forEach((value, other) => {
      const part = value * (gradient[one] as number) * (gradient[other] as number);
      variance += part;
      size += Math.abs(part);
    });
  });
  requireInDomain('variance of the correction', variance, -ROUNDING * size, Number.MAX_VALUE);
  return Math.sqrt(Math.max(0, variance));
}
