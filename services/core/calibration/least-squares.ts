/**
 * Polynomials of degree 0 to 2 through points by least squares, ordinary or weighted, with the covariance of their
 * coefficients.
 *
 * Abscissas are centred on their mean and scaled to [-1, 1] before they are squared, and the coefficients carried over
 * to the centre asked for afterwards. Sources: JCGM 100:2008 H.3.2 and H.3.3; weighted with known uncertainties, and
 * the ratio that widens them: R. T. Birge, Phys. Rev. 40 (1932) 207-227 (from memory).
 */
import { mean } from 'simple-statistics';
import { requireInDomain, SandlarderError } from '../errors.js';
import { triangleOf } from './householder.js';

export type Degree = 0 | 1 | 2;

export interface Observations {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Standard uncertainties of y, above 0, independent of each other; without them every point counts alike. */
  readonly uncertainties?: readonly number[];
}

export interface PolynomialFit {
  readonly degree: Degree;
  readonly centre: number;
  /** Of 1, x - centre, (x - centre)^2. */
  readonly coefficients: readonly number[];
  /**
   * By rows. Ordinary: s^2 (X'X)^-1. Weighted: (X'WX)^-1, times chi-square over degrees of freedom where that is
   * above 1; never made smaller.
   */
  readonly covariance: readonly (readonly number[])[];
  readonly correlation: readonly (readonly number[])[];
  /** y less the polynomial, in the order given. */
  readonly residuals: readonly number[];
  /** Share of itself that each point has in its own fitted value, 0..1. */
  readonly leverages: readonly number[];
  readonly degreesOfFreedom: number;
  /** Of y about the polynomial, in its unit; of a weighted fit with weights. Absent without degrees of freedom. */
  readonly residualDeviation?: number;
  /** Of a weighted fit with degrees of freedom: the root of chi-square over them. */
  readonly birgeRatio?: number;
}

/**
 * Fits a polynomial.
 *
 * @param centre abscissa that the coefficients refer to
 * @throws SandlarderError OUT_OF_DOMAIN for numbers that are not finite or do not pair; TOO_FEW_SAMPLES for fewer
 * points, or different abscissas, than coefficients, and for an ordinary fit that leaves nothing to tell the scatter
 * @remarks NIST StRD: Norris to 12 certified digits and more, Pontius to 11, deviations included (tests/checks).
 */
export function fitPolynomial(observations: Observations, degree: Degree, centre = 0): PolynomialFit {
  requireObservations(observations, degree, centre);
  const { x, y, uncertainties } = observations;
  const middle = mean([...x]);
  const scale = Math.max(...x.map((value) => Math.abs(value - middle))) || 1;
  const weights = x.map((_, at) => 1 / (uncertainties?.[at] ?? 1));
  const rows = x.map((value) => powers((value - middle) / scale, degree));
  const columns = powers(0, degree).map((_, column) =>
    Float64Array.from(rows, (row, at) => (row[column] as number) * (weights[at] as number)),
  );
  const right = Float64Array.from(y, (value, at) => value * (weights[at] as number));
  const { inverse, turned } = triangleOf(columns, right);
  const scaled = inverse.map((row) => dot(row, turned));
  const residuals = y.map((value, at) => value - dot(rows[at] as number[], scaled));
  const carry = carryOver(degree, (middle - centre) / scale, scale);
  return {
    degree,
    centre,
    coefficients: carry.map((row) => dot(row, scaled)),
    residuals,
    leverages: rows.map((row, at) => leverage(row, inverse) * (weights[at] as number) ** 2),
    ...spread(residuals, weights, product(carry, inverse), uncertainties !== undefined),
  };
}

/** 1, d, d^2 up to the degree: also how the fitted value answers to each coefficient. */
export const powers = (distance: number, degree: Degree): number[] =>
  [1, distance, distance * distance].slice(0, degree + 1);

export const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, at) => sum + value * (other[at] as number), 0);

const product = (left: readonly (readonly number[])[], right: readonly (readonly number[])[]): number[][] =>
  left.map((row) =>
    right.map((_, column) =>
      dot(
        row,
        right.map((of) => of[column] as number),
      ),
    ),
  );

/** Size of row R^-1, squared: the point's part in its own fitted value. */
const leverage = (row: readonly number[], inverse: readonly (readonly number[])[]): number =>
  product([row], inverse)
    .flat()
    .reduce((sum, value) => sum + value * value, 0);

/** From coefficients of z = (x - middle) / scale to those of x - centre; shift is (middle - centre) / scale. */
const carryOver = (degree: Degree, shift: number, scale: number): number[][] =>
  [
    [1, -shift, shift * shift],
    [0, 1 / scale, (-2 * shift) / scale],
    [0, 0, 1 / scale ** 2],
  ]
    .slice(0, degree + 1)
    .map((row) => row.slice(0, degree + 1));

type Spread = Pick<
  PolynomialFit,
  'covariance' | 'correlation' | 'degreesOfFreedom' | 'residualDeviation' | 'birgeRatio'
>;

/** @param root a root of the covariance before it is scaled: rows times rows give it */
function spread(
  residuals: readonly number[],
  weights: readonly number[],
  root: readonly (readonly number[])[],
  weighted: boolean,
): Spread {
  const degreesOfFreedom = residuals.length - root.length;
  const squares = residuals.reduce((sum, value, at) => sum + (value * (weights[at] as number)) ** 2, 0);
  const unscaled = root.map((one) => root.map((other) => dot(one, other)));
  const deviation = (at: number): number => Math.sqrt(unscaled[at]?.[at] as number);
  const correlation = unscaled.map((row, one) =>
    row.map((value, other) => (one === other ? 1 : value / (deviation(one) * deviation(other)))),
  );
  if (degreesOfFreedom === 0) return { covariance: unscaled, correlation, degreesOfFreedom };
  const ratio = Math.sqrt(squares / degreesOfFreedom);
  const factor = weighted ? Math.max(1, ratio) ** 2 : ratio ** 2;
  const covariance = unscaled.map((row) => row.map((value) => value * factor));
  const meanWeight = mean(weights.map((weight) => weight * weight));
  const spreadOfAll = {
    covariance,
    correlation,
    degreesOfFreedom,
    residualDeviation: ratio / Math.sqrt(meanWeight),
  };
  return weighted ? { ...spreadOfAll, birgeRatio: ratio } : spreadOfAll;
}

function requireObservations({ x, y, uncertainties }: Observations, degree: Degree, centre: number): void {
  const pairs = [y.length, uncertainties?.length ?? x.length];
  if (!pairs.every((count) => count === x.length))
    throw new SandlarderError('OUT_OF_DOMAIN', `observations: expected ${x.length} of each, got ${pairs}`);
  for (const value of [...x, ...y, centre])
    requireInDomain('observation', value, -Number.MAX_VALUE, Number.MAX_VALUE);
  for (const value of uncertainties ?? [])
    requireInDomain('uncertainty of an observation', value, Number.MIN_VALUE, Number.MAX_VALUE);
  // An ordinary fit has its uncertainty from the scatter, which takes one point more than coefficients.
  const least = degree + (uncertainties === undefined ? 2 : 1);
  if (!(x.length >= least))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `polynomial of degree ${degree}: expected at least ${least} points, got ${x.length}`,
    );
}
