/**
 * The regularised incomplete beta function I_x(a, b) [NIST DLMF 8.17, its continued fraction 8.17.22; clauses from memory],
 * of which the tails of t and F are made.
 */
import { gammaln } from 'simple-statistics';

export interface Share {
  readonly value: number;
  /** Given apart: of a value within a last digit of 1 the logarithm would be gone. */
  readonly logarithm: number;
}

/** I_x(a, b), for x below (a + 1) / (a + b + 2), where the fraction settles within some roots of a or b. */
function betaByFraction(x: Share, rest: Share, a: number, b: number): number {
  const depth = 40 + Math.ceil(6 * Math.sqrt(Math.max(a, b)));
  let value = 1;
  for (let m = depth; m >= 0; m -= 1) {
    const even = ((m + 1) * (b - m - 1) * x.value) / ((a + 2 * m + 1) * (a + 2 * m + 2));
    const odd = (-(a + m) * (a + b + m) * x.value) / ((a + 2 * m) * (a + 2 * m + 1));
    value = 1 + odd / (1 + even / value);
  }
  const front = gammaln(a + b) - gammaln(a) - gammaln(b) + a * x.logarithm + b * rest.logarithm;
  return Math.exp(front) / (a * value);
}

/**
 * I_x(a, b).
 *
 * @param x 0 to 1, and `rest` 1 less it
 * @param a above 0
 * @param b above 0; with a at most 50,000 each: beyond, the logarithm of the gamma function has too few digits
 */
export function incompleteBeta(x: Share, rest: Share, a: number, b: number): number {
  const near = x.value < (a + 1) / (a + b + 2);
  return near ? betaByFraction(x, rest, a, b) : 1 - betaByFraction(rest, x, b, a);
}
