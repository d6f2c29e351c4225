/**
 * Distributions of test statistics. Student's t and Fisher's F are this program's own: those of lib-r-math.js 2.0.3 are
 * right to seven digits only. From it come the others, with what it does not check checked here.
 */
import { lgamma, pchisq, pf, pnorm, pt, ptukey, qf, qnorm, qtukey } from 'lib-r-math.js';
import { incompleteBeta } from '../calibration/incomplete-beta.js';
import { studentScore, studentTail } from '../calibration/student.js';
import { requireInDomain, SandlarderError } from '../errors.js';

const MOST = Number.MAX_VALUE;
const MOST_DEGREES = 100_000;

const requireDegrees = (name: string, degrees: number): void =>
  requireInDomain(name, degrees, Number.MIN_VALUE, MOST);

function settled(name: string, value: number): number {
  if (!Number.isFinite(value))
    throw new SandlarderError('OUT_OF_DOMAIN', `${name}: expected a number, got ${value}`);
  return value;
}

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
  return qnorm((1 + level) / 2);
}

/** Probability of a normal deviate at least so far from 0 on either side. */
export function normalP(z: number): number {
  requireInDomain('z', z, -MOST, MOST);
  return 2 * pnorm(Math.abs(z), 0, 1, false);
}

/** Cumulative normal distribution. */
export const normalBelow = (z: number): number => pnorm(z);

/** Probability of an F at least so large. */
export function fisherP(f: number, between: number, within: number): number {
  requireInDomain('F', f, 0, MOST);
  requireInDomain('degrees of freedom between', between, Number.MIN_VALUE, MOST_DEGREES);
  requireInDomain('degrees of freedom within', within, Number.MIN_VALUE, MOST_DEGREES);
  const ratio = (between / within) * f;
  if (f === 0) return 1;
  const x = { value: 1 / (1 + ratio), logarithm: -Math.log1p(ratio) };
  const rest = { value: ratio / (1 + ratio), logarithm: -Math.log1p(1 / ratio) };
  return incompleteBeta(x, rest, within / 2, between / 2);
}

/** Probability of a chi-square at least so large. */
export function chiSquareP(value: number, df: number): number {
  requireInDomain('chi-square', value, 0, MOST);
  requireDegrees('degrees of freedom', df);
  return settled('p of chi-square', pchisq(value, df, undefined, false));
}

/** Probability of a studentised range at least so large. @param means 2 or more @param df 2 or more */
export function rangeP(q: number, means: number, df: number): number {
  requireInDomain('studentised range', q, 0, MOST);
  requireInDomain('means', means, 2, 1000);
  requireInDomain('degrees of freedom', df, 2, MOST);
  return settled('p of the range', ptukey(q, means, df, 1, false));
}

/** The studentised range that is exceeded with probability 1 - level. */
export function rangeFactor(level: number, means: number, df: number): number {
  requireInDomain('level', level, 0, 1 - Number.EPSILON);
  requireInDomain('means', means, 2, 1000);
  requireInDomain('degrees of freedom', df, 2, MOST);
  return settled('factor of the range', qtukey(level, means, df));
}

/** Power of a two-sided t test at `alpha`. @param ncp difference over its standard error */
export function studentPower(alpha: number, df: number, ncp: number): number {
  const limit = studentFactor(1 - alpha, df);
  return settled('power', pt(limit, df, ncp, false) + pt(-limit, df, ncp));
}

/** Power of an F test at `alpha`. @param ncp sum of squares of the true effects over the variance */
export function fisherPower(alpha: number, between: number, within: number, ncp: number): number {
  requireInDomain('alpha', alpha, Number.MIN_VALUE, 1);
  const limit = qf(alpha, between, within, undefined, false);
  return settled('power', pf(limit, between, within, ncp, false));
}

/** Logarithm of the gamma function. */
export const logGamma = (value: number): number => lgamma(value);
