/**
 * Student's t and the normal distribution: tails, and the values that are exceeded with a given probability.
 *
 * Tail of t: half the regularised incomplete beta function at nu / (nu + t^2) [M. Abramowitz & I. A. Stegun 26.7.1;
 * clause from memory].
 */
import { gammaln } from 'simple-statistics';
import { requireInDomain, SandlarderError } from '../errors.js';
import { erfc } from '../physics/index.js';
import { incompleteBeta } from './incomplete-beta.js';

/** Beyond, the logarithm of the gamma function has too few digits after the point, and t is normal to 5 digits. */
const MOST_DEGREES = 100_000;

const LEAST_TAIL = 1e-12;

/** Newton's method from 0 creeps up a tail of one degree of freedom by doubling: 40 steps to 1e-12. */
const NEWTON_CAP = 200;

/** Relative; the tails are right to some last digits, and so is a step. */
const SETTLED = 1e-12;

const requireDegrees = (degreesOfFreedom: number): void =>
  requireInDomain('degrees of freedom', degreesOfFreedom, 1, MOST_DEGREES);

/**
 * Probability of a value of Student's t above `t`.
 *
 * @param t 0 or above
 * @param degreesOfFreedom 1 to 100,000
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function studentTail(t: number, degreesOfFreedom: number): number {
  requireInDomain('t', t, 0, Number.MAX_VALUE);
  requireDegrees(degreesOfFreedom);
  if (t === 0) return 0.5;
  const ratio = (t / degreesOfFreedom) * t;
  const x = { value: 1 / (1 + ratio), logarithm: -Math.log1p(ratio) };
  const rest = { value: ratio / (1 + ratio), logarithm: -Math.log1p(1 / ratio) };
  return incompleteBeta(x, rest, degreesOfFreedom / 2, 0.5) / 2;
}

function studentDensity(t: number, degreesOfFreedom: number): number {
  const half = (degreesOfFreedom + 1) / 2;
  const front = Math.exp(gammaln(half) - gammaln(degreesOfFreedom / 2));
  return (
    (front / Math.sqrt(Math.PI * degreesOfFreedom)) * Math.exp(-half * Math.log1p((t * t) / degreesOfFreedom))
  );
}

/** Newton from 0: the tail is convex above 0, so that every step falls short and none overshoots. */
function scoreOf(tail: number, tailAt: (t: number) => number, densityAt: (t: number) => number): number {
  requireInDomain('tail', tail, LEAST_TAIL, 0.5);
  let score = 0;
  for (let step = 0; step < NEWTON_CAP; step += 1) {
    const move = (tailAt(score) - tail) / densityAt(score);
    score += move;
    if (Math.abs(move) <= SETTLED * (1 + score)) return score;
  }
  throw new SandlarderError('LIMIT_EXCEEDED', `score: not settled in ${NEWTON_CAP} steps for ${tail}`);
}

/**
 * The value that Student's t exceeds with probability `tail`: 0.025 gives the factor of a two-sided 95 %.
 *
 * @param tail 1e-12 to 0.5
 * @param degreesOfFreedom 1 to 100,000; without it the normal distribution, of infinitely many
 * @throws SandlarderError OUT_OF_DOMAIN
 * @remarks Relative error below 1e-10 up to 1,000 degrees of freedom, 1e-9 beyond.
 */
export function studentScore(tail: number, degreesOfFreedom?: number): number {
  if (degreesOfFreedom === undefined)
    return scoreOf(
      tail,
      (t) => erfc(t / Math.SQRT2) / 2,
      (t) => Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI),
    );
  requireDegrees(degreesOfFreedom);
  return scoreOf(
    tail,
    (t) => studentTail(Math.max(0, t), degreesOfFreedom),
    (t) => studentDensity(t, degreesOfFreedom),
  );
}
