/** Distributions of test statistics: what is asked of them is checked here. */
import { gammaln } from 'simple-statistics';
import { studentScore, studentTail } from '../calibration/student.js';
import { requireInDomain } from '../errors.js';
import { erfc } from '../physics/index.js';
import { fisherScore, fisherTail, noncentralTail } from './fisher.js';
import { upperGamma } from './incomplete-gamma.js';
import { studentisedRangeScore, studentisedRangeTail } from './studentised-range.js';

const MOST = Number.MAX_VALUE;
const MOST_DEGREES = 100_000;

const requireDegrees = (name: string, degrees: number): void =>
  requireInDomain(name, degrees, Number.MIN_VALUE, MOST);

/** Probability of a t at least so far from 0 on either side. @param df 1 or more, may be a fraction */
export function studentP(t: number, df: number): number {
  requireInDomain('t', t, -MOST, MOST);
  return 2 * studentTail(Math.abs(t), df);
}

/** Factor of a two-sided interval. @param level 0.95 gives that of 95 % */
export function studentFactor(level: number, df: number): number {
  requireInDomain('level', level, 0, 1 - Number.EPSILON);
  return studentScore((1 - level) / 2, df);
}

/** Factor of a two-sided interval under the normal distribution. */
export function normalFactor(level: number): number {
  requireInDomain('level', level, 0, 1 - Number.EPSILON);
  return studentScore((1 - level) / 2);
}

/** Probability of a normal deviate at least so far from 0 on either side. */
export function normalP(z: number): number {
  requireInDomain('z', z, -MOST, MOST);
  return erfc(Math.abs(z) / Math.SQRT2);
}

/** Cumulative normal distribution. */
export const normalBelow = (z: number): number => erfc(-z / Math.SQRT2) / 2;

/** Probability of an F at least so large. */
export function fisherP(f: number, between: number, within: number): number {
  requireInDomain('F', f, 0, MOST);
  requireInDomain('degrees of freedom between', between, Number.MIN_VALUE, MOST_DEGREES);
  requireInDomain('degrees of freedom within', within, Number.MIN_VALUE, MOST_DEGREES);
  return fisherTail(f, between, within);
}

/** Probability of a chi-square at least so large. */
export function chiSquareP(value: number, df: number): number {
  requireInDomain('chi-square', value, 0, MOST);
  requireDegrees('degrees of freedom', df);
  return upperGamma(df / 2, value / 2);
}

/** Probability of a studentised range at least so large. @param means 2 or more @param df 2 or more */
export function rangeP(q: number, means: number, df: number): number {
  requireInDomain('studentised range', q, 0, MOST);
  requireInDomain('means', means, 2, 1000);
  requireInDomain('degrees of freedom', df, 2, MOST);
  return studentisedRangeTail(q, means, df);
}

/** The studentised range that is exceeded with probability 1 - level. */
export function rangeFactor(level: number, means: number, df: number): number {
  requireInDomain('level', level, 0, 1 - Number.EPSILON);
  requireInDomain('means', means, 2, 1000);
  requireInDomain('degrees of freedom', df, 2, MOST);
  return studentisedRangeScore(1 - level, means, df);
}

/** Power of a two-sided t test at `alpha`: the square of a t is an F. @param ncp difference over its standard error */
export const studentPower = (alpha: number, df: number, ncp: number): number =>
  fisherPower(alpha, 1, df, ncp * ncp);

/** Power of an F test at `alpha`. @param ncp sum of squares of the true effects over the variance */
export function fisherPower(alpha: number, between: number, within: number, ncp: number): number {
  requireInDomain('alpha', alpha, Number.MIN_VALUE, 1);
  requireInDomain('noncentrality', ncp, 0, Number.POSITIVE_INFINITY);
  return noncentralTail(fisherScore(alpha, between, within), between, within, ncp);
}

/** Logarithm of the gamma function. */
export const logGamma = (value: number): number => gammaln(value);
