/**
 * The standard normal distribution, to the last digits: a run length of 10^9 rests on tails of 10^-9, and the usual
 * short polynomials are right to 10^-7 only.
 */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { requireFinite } from './checks.js';

const DENSITY_AT_0 = 1 / Math.sqrt(2 * Math.PI);

/** From here on the tail's continued fraction settles fast; below, the series about 0 loses no digits that count. */
const FAR = 2;

/** Depth of the continued fraction: at 2, where it is slowest, 150 is enough for the last digit. */
const FRACTION_DEPTH = 150;

/** Density at x. */
export function normalDensity(x: number): number {
  return DENSITY_AT_0 * Math.exp((-x * x) / 2);
}

/**
 * Probability of a value above x.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for NaN and infinity
 * @remarks Relative error below 1e-14 up to x = 37; beyond, the value is too small for a number. Series
 * x + x^3/3 + x^5/(3 5) + ... times the density (M. Abramowitz & I. A. Stegun, 26.2.11), and the continued
 * fraction of Laplace (26.2.14); clauses from memory.
 */
export function normalTail(x: number): number {
  requireFinite('x', x);
  if (x < 0) return 1 - normalTail(-x);
  return x < FAR ? 0.5 - normalDensity(x) * seriesAt(x) : normalDensity(x) / fractionAt(x);
}

function seriesAt(x: number): number {
  let term = x;
  let sum = 0;
  for (let odd = 3; sum + term !== sum; odd += 2) {
    sum += term;
    term *= (x * x) / odd;
  }
  return sum;
}

function fractionAt(x: number): number {
  let value = x;
  for (let depth = FRACTION_DEPTH; depth >= 1; depth -= 1) value = x + depth / value;
  return value;
}

const NEWTON_CAP = 100;
const TAIL_LEAST = 1e-15;

/**
 * The value that is exceeded with probability `tail`: the inverse of `normalTail`.
 *
 * @param tail in [1e-15, 1 - 1e-15]
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where 100 steps do not settle it
 * @remarks Newton from 0, where the curve makes every step fall short and none overshoot, until a step is below 1e-14.
 */
export function normalScore(tail: number): number {
  requireInDomain('tail', tail, TAIL_LEAST, 1 - TAIL_LEAST);
  if (tail > 0.5) return -normalScore(1 - tail);
  let score = 0;
  for (let step = 0; step < NEWTON_CAP; step += 1) {
    const move = (normalTail(score) - tail) / normalDensity(score);
    score += move;
    if (Math.abs(move) < 1e-14 * (1 + score)) return score;
  }
  throw new SandlarderError('LIMIT_EXCEEDED', `normalScore: not settled in ${NEWTON_CAP} steps for ${tail}`);
}
