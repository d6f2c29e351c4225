/**
 * Distribution of the studentised range: of `means` normal values their range, over a standard deviation that was found
 * with `df` degrees of freedom. Two integrals [H. O. Hartley, Biometrika 32 (1942) 309-310, of the range; M. D. Copenhaver
 * & B. Holland, J. Statist. Comput. Simul. 30 (1988) 1-15, of its studentised form; titles from memory]:
 *
 * range of width w: (2 Phi(w/2) - 1)^k + 2 k * integral from w/2 of phi(z) (Phi(z) - Phi(z - w))^(k-1) dz;
 * studentised: the mean of that over w = q s, with s the root of chi-square over df.
 */
import { studentScore } from '../calibration/student.js';
import { SandlarderError } from '../errors.js';
import { erfc } from '../physics/index.js';

/** Nodes above 0 and weights of Gauss-Legendre on [-1, 1] with 16 points [M. Abramowitz & I. A. Stegun, table 25.4]. */
const NODES = [
  0.09501250983763744, 0.2816035507792589, 0.45801677765722737, 0.6178762444026438, 0.755404408355003,
  0.8656312023878318, 0.9445750230732326, 0.9894009349916499,
] as const;
const WEIGHTS = [
  0.1894506104550685, 0.18260341504492358, 0.16915651939500254, 0.14959598881657674, 0.12462897125553388,
  0.09515851168249279, 0.062253523938647894, 0.027152459411754096,
] as const;

/** Beyond, the normal density is under the last digit of 1. */
const FAR = 8.5;

/** Of one piece of the inner integral: its integrand changes over about 1. */
const PIECE = 1.25;

/** Beyond so many degrees of freedom the standard deviation is known. */
const MOST_DEGREES = 1e8;

const below = (z: number): number => erfc(-z / Math.SQRT2) / 2;
const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

function integral(from: number, to: number, of: (z: number) => number): number {
  const pieces = Math.max(1, Math.ceil((to - from) / PIECE));
  const half = (to - from) / (2 * pieces);
  let sum = 0;
  for (let piece = 0; piece < pieces; piece += 1) {
    const middle = from + (2 * piece + 1) * half;
    NODES.forEach((node, at) => {
      sum += (WEIGHTS[at] as number) * (of(middle - half * node) + of(middle + half * node));
    });
  }
  return sum * half;
}

/** Probability that the range of so many normal values exceeds w. */
function rangeTail(w: number, means: number): number {
  if (!(w > 0)) return 1;
  const half = w / 2;
  // 1 - (1 - e)^k without losing the digits of a small e.
  const within = -Math.expm1(means * Math.log1p(-erfc(half / Math.SQRT2)));
  if (half >= FAR) return within;
  const outside = integral(half, FAR, (z) => density(z) * (below(z) - below(z - w)) ** (means - 1));
  return Math.max(0, within - 2 * means * outside);
}

/**
 * Probability that the studentised range exceeds q, absolute error below 1e-12.
 *
 * By the rule of equal steps in the logarithm of s, which settles faster than any power of the step where an integrand falls
 * off on both sides; the weights are divided by their sum, so that no gamma function is needed.
 *
 * @param q 0 or above
 * @param means 2 to 1000
 * @param df 2 or more, may be a fraction
 */
export function studentisedRangeTail(q: number, means: number, df: number): number {
  if (df > MOST_DEGREES) return rangeTail(q, means);
  const step = Math.min(0.1, 0.5 / Math.sqrt(2 * df));
  let [weights, sum] = [0, 0];
  for (const direction of [1, -1])
    for (let at = direction === 1 ? 0 : 1; ; at += 1) {
      const y = direction * at * step;
      const weight = Math.exp(df * (y - Math.expm1(2 * y) / 2));
      weights += weight;
      sum += weight * rangeTail(q * Math.exp(y), means);
      if (weight < 1e-17) break;
    }
  return Math.min(1, sum / weights);
}

/** What the pairs would need if they knew nothing of each other: a little too much. */
function firstGuess(tail: number, means: number, df: number): number {
  const each = Math.min(0.4, Math.max(LEAST_TAIL, tail / (means * (means - 1))));
  return Math.SQRT2 * studentScore(each, df > MOST_GUESSED ? undefined : df);
}

/** Of Student's t as it is known here. */
const LEAST_TAIL = 1e-12;
const MOST_GUESSED = 100_000;

/** Steps of the search: each multiplies the digits that hold by about 1.6. */
const MOST_STEPS = 100;

/** Relative; the tail is right to some more digits. */
const SETTLED = 1e-10;

/**
 * The studentised range that is exceeded with probability `tail`, relative error below 1e-9. By secants of the logarithm of
 * the tail, which bends little.
 *
 * @param tail above 0, at most 1
 * @throws SandlarderError LIMIT_EXCEEDED where it is not found
 */
export function studentisedRangeScore(tail: number, means: number, df: number): number {
  const excess = (q: number): number => Math.log(studentisedRangeTail(q, means, df) / tail);
  if (tail === 1) return 0;
  let q = firstGuess(tail, means, df);
  let before = 0.97 * q;
  let atBefore = excess(before);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const here = excess(q);
    const next = q - (here * (q - before)) / (here - atBefore);
    if (Math.abs(next - q) <= SETTLED * q) return next;
    [before, atBefore] = [q, here];
    q = Math.min(2 * q, Math.max(q / 2, next));
  }
  throw new SandlarderError(
    'LIMIT_EXCEEDED',
    `studentised range: expected to find what is exceeded with probability ${tail} of ${means} means with ${df} degrees of freedom, found none`,
  );
}
