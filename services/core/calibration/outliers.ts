/**
 * Points that do not belong to the others: named, never dropped.
 *
 * Each residual is held against the scatter of the points without it (externally studentised), with a bound at which
 * the likeliest of n good points is called once in twenty fits (Bonferroni). Source: R. D. Cook & S. Weisberg,
 * Residuals and Influence in Regression (1982) 2.2.2 (from memory). For a plain mean it is the test of F. E. Grubbs.
 * Two outliers can hide each other: what is not named here is not therefore good.
 */
import type { PolynomialFit } from './least-squares.js';
import { studentScore } from './student.js';

/** Share of fits to good points in which one of them is named. */
const FALSE_NAMES = 0.05;

/** A point with less than this of its own scatter left pulls the curve through itself, and cannot be judged. */
const LEAST_LEFT = 1e-6;

export interface JudgedResidual {
  readonly index: number;
  readonly residual: number;
  /** In its own standard deviations, s sqrt(1 - leverage) or u sqrt(1 - leverage); absent where it cannot be had. */
  readonly standardised?: number;
}

export interface Outlier extends Required<JudgedResidual> {
  /** Size of `standardised` that it is above. */
  readonly bound: number;
}

/**
 * Residuals in their own standard deviations.
 *
 * @param indices of the points fitted among those given
 * @param uncertainties of a weighted fit
 */
export function judgedResiduals(
  fit: PolynomialFit,
  indices: readonly number[],
  uncertainties?: readonly number[],
): JudgedResidual[] {
  return fit.residuals.map((residual, at) => {
    const own = { index: indices[at] as number, residual };
    const left = 1 - (fit.leverages[at] as number);
    const deviation = uncertainties?.[at] ?? fit.residualDeviation ?? 0;
    if (!(left > LEAST_LEFT && deviation > 0)) return own;
    return { ...own, standardised: residual / (deviation * Math.sqrt(left)) };
  });
}

/**
 * The points that lie outside, largest first.
 *
 * @param leastResidual a smaller residual is never called one, however still the other points are
 */
export function outliersOf(
  fit: PolynomialFit,
  residuals: readonly JudgedResidual[],
  leastResidual: number,
): Outlier[] {
  // With one degree of freedom all residuals are of one size, and none can be told from the others.
  if (!(fit.degreesOfFreedom >= 2)) return [];
  const tail = FALSE_NAMES / (2 * residuals.length);
  const boundAt =
    fit.birgeRatio === undefined ? ordinaryBound(fit, tail) : weightedBound(fit, fit.birgeRatio, tail);
  return residuals
    .flatMap(({ index, residual, standardised }) => {
      if (standardised === undefined || !(Math.abs(residual) > leastResidual)) return [];
      const bound = boundAt(standardised);
      return Math.abs(standardised) > bound ? [{ index, residual, standardised, bound }] : [];
    })
    .sort((one, other) => Math.abs(other.standardised) - Math.abs(one.standardised));
}

/** t of the point without itself, r / s(i), rewritten for r / s: so it stays finite where the others have no scatter. */
function ordinaryBound({ degreesOfFreedom }: PolynomialFit, tail: number): () => number {
  const t = studentScore(tail, degreesOfFreedom - 1);
  const bound = t * Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 1 + t * t));
  return () => bound;
}

/** Against the known uncertainties; where the other points scatter more than those say, against their scatter. */
function weightedBound(
  { degreesOfFreedom }: PolynomialFit,
  birgeRatio: number,
  tail: number,
): (standardised: number) => number {
  const chiSquare = birgeRatio ** 2 * degreesOfFreedom;
  return (standardised) => {
    const ratio = Math.sqrt(Math.max(0, chiSquare - standardised ** 2) / (degreesOfFreedom - 1));
    return ratio > 1 ? ratio * studentScore(tail, degreesOfFreedom - 1) : studentScore(tail);
  };
}
