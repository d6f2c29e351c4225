/**
 * Fisher's F, central and noncentral.
 *
 * Noncentral: a sum of central ones, weighted by a Poisson distribution of half the noncentrality [N. L. Johnson, S. Kotz &
 * N. Balakrishnan, Continuous Univariate Distributions vol. 2, 2nd ed. 1995, ch. 30, from memory].
 */
import { gammaln } from 'simple-statistics';
import { incompleteBeta } from '../calibration/incomplete-beta.js';
import { upperGamma } from './incomplete-gamma.js';

/** Above, the sum of squares between is taken as known: its scatter is 1.5 % of it by then. */
const MOST_NONCENTRALITY = 20_000;

/** Roots of the mean to either side of it beyond which Poisson weights are under the last digit. */
const SPREADS = 9;

/** Halvings of the logarithm of F, which lies within 750 of 0. */
const HALVINGS = 64;
const WIDEST = 750;

/** Probability of an F above `f`, 0 or above. */
export function fisherTail(f: number, between: number, within: number): number {
  if (f === 0) return 1;
  const { x, rest } = shares((between / within) * f);
  return incompleteBeta(x, rest, within / 2, between / 2);
}

/** The shares of the variance within and between at a ratio of their sums of squares. */
const shares = (ratio: number) => ({
  x: { value: 1 / (1 + ratio), logarithm: -Math.log1p(ratio) },
  rest: { value: ratio / (1 + ratio), logarithm: -Math.log1p(1 / ratio) },
});

/** The F that is exceeded with probability `tail`, above 0 and below 1. */
export function fisherScore(tail: number, between: number, within: number): number {
  let [low, high] = [-WIDEST, WIDEST];
  for (let at = 0; at < HALVINGS; at += 1) {
    const middle = (low + high) / 2;
    if (fisherTail(Math.exp(middle), between, within) > tail) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/**
 * Probability of a noncentral F above `f`.
 *
 * Adding 1 to a takes x^a (1 - x)^b / (a B(a, b)) off I_x(a, b): from the last term back only positive ones are added.
 *
 * @param f above 0
 * @param noncentrality 0 or above
 */
export function noncentralTail(f: number, between: number, within: number, noncentrality: number): number {
  if (noncentrality > MOST_NONCENTRALITY) return knownBetween(f, between, within, noncentrality);
  const mean = noncentrality / 2;
  const { x, rest } = shares((between / within) * f);
  const [a, b] = [between / 2, within / 2];
  const spread = SPREADS * Math.sqrt(mean) + 40;
  const last = Math.ceil(mean + spread);
  let below = incompleteBeta(rest, x, a + last, b);
  let sum = 0;
  for (let at = last; at >= Math.max(0, Math.floor(mean - spread)); at -= 1) {
    if (at < last) below += Math.exp(lost(rest.logarithm, x.logarithm, a + at, b));
    sum += below * poisson(at, mean);
  }
  return Math.max(0, 1 - sum);
}

/** Beyond so many times its mean no chi-square is found. */
const NEVER = 10_000;

function knownBetween(f: number, between: number, within: number, noncentrality: number): number {
  const most = (noncentrality + between) / (between * f);
  return most > NEVER ? 1 : 1 - upperGamma(within / 2, (within * most) / 2);
}

/** Logarithm of what adding 1 to a takes off. */
const lost = (logarithm: number, ofRest: number, a: number, b: number): number =>
  a * logarithm + b * ofRest + gammaln(a + b) - gammaln(a + 1) - gammaln(b);

const poisson = (times: number, mean: number): number =>
  mean === 0 ? Number(times === 0) : Math.exp(times * Math.log(mean) - mean - gammaln(times + 1));
