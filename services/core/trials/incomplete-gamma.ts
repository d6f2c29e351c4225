/**
 * The regularised upper incomplete gamma function Q(a, x) [NIST DLMF 8.2.4; 8.7.1, its series; 8.9.2, its continued
 * fraction; clauses from memory], of which the tail of chi-square is made.
 */
import { gammaln } from 'simple-statistics';
import { SandlarderError } from '../errors.js';

const LAST_DIGIT = 2 ** -53;

/** Terms that are needed grow with the root of the larger of a and x; this only makes it finite. */
const MOST_TERMS = 100_000;

const notSettled = (a: number, x: number): SandlarderError =>
  new SandlarderError('LIMIT_EXCEEDED', `incomplete gamma function: not settled for a = ${a}, x = ${x}`);

/** x^a exp(-x) / Gamma(a). */
const front = (a: number, x: number): number => Math.exp(a * Math.log(x) - x - gammaln(a));

/** 1 - Q, by a sum of positive terms: for x below a + 1. */
function lowerBySeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n <= MOST_TERMS; n += 1) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * LAST_DIGIT) return front(a, x) * sum;
  }
  throw notSettled(a, x);
}

/** Q, by the fraction's even part from its near end; its denominators stay above 0 for x from a + 1 on. */
function upperByFraction(a: number, x: number): number {
  let denominator = x + 1 - a;
  let ratio = Number.MAX_VALUE;
  let step = 1 / denominator;
  let value = step;
  for (let n = 1; n <= MOST_TERMS; n += 1) {
    const part = n * (a - n);
    denominator += 2;
    step = 1 / (denominator + part * step);
    ratio = denominator + part / ratio;
    const change = step * ratio;
    value *= change;
    if (Math.abs(change - 1) < 4 * LAST_DIGIT) return front(a, x) * value;
  }
  throw notSettled(a, x);
}

/**
 * Q(a, x): the share of the gamma function that lies beyond x.
 *
 * @param a above 0
 * @param x 0 or above
 * @throws SandlarderError LIMIT_EXCEEDED where it does not settle
 */
export function upperGamma(a: number, x: number): number {
  if (x === 0) return 1;
  return x < a + 1 ? 1 - lowerBySeries(a, x) : upperByFraction(a, x);
}
