/**
 * The gamma distribution of scale 1: what is known of a rate after so many events.
 *
 * Regularised incomplete gamma function by its series and its continued fraction [NIST DLMF 8.7.1 and 8.9.2; clauses
 * from memory].
 */
import { gammaln } from 'simple-statistics';
import { requireInDomain } from '../errors.js';

/** Shapes beyond: fewer events than a prior may stand for, and more roots than a bed can lose. */
const LEAST_SHAPE = 0.01;
const GREATEST_SHAPE = 1e6;

const requireShape = (shape: number): void => requireInDomain('shape', shape, LEAST_SHAPE, GREATEST_SHAPE);

/**
 * Probability of a value of at most x.
 *
 * @param x 0 or more
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function gammaBelow(shape: number, x: number): number {
  requireShape(shape);
  requireInDomain('x', x, 0, Number.MAX_VALUE);
  if (x === 0) return 0;
  const front = Math.exp(shape * Math.log(x) - x - gammaln(shape));
  return x < shape + 1 ? front * seriesAt(shape, x) : 1 - front * fractionAt(shape, x);
}

function seriesAt(shape: number, x: number): number {
  let term = 1 / shape;
  let sum = 0;
  for (let next = shape + 1; sum + term !== sum; next += 1) {
    sum += term;
    term *= x / next;
  }
  return sum;
}

/** Settles within some roots of the shape, slowest where x is near it. */
function fractionAt(shape: number, x: number): number {
  const depth = 60 + Math.ceil(8 * Math.sqrt(shape));
  let value = 0;
  for (let k = depth; k >= 1; k -= 1) value = (k * (shape - k)) / (x + 2 * k + 1 - shape + value);
  return 1 / (x + 1 - shape + value);
}

/** Halvings from a bracket of a factor 2 to the last digit. */
const HALVINGS = 60;

/**
 * The value that is not exceeded with a probability: the inverse of `gammaBelow`.
 *
 * @param probability in [0.001, 0.999]
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function gammaQuantile(shape: number, probability: number): number {
  requireShape(shape);
  requireInDomain('probability', probability, 0.001, 0.999);
  let high = shape;
  while (gammaBelow(shape, high) < probability) high *= 2;
  while (gammaBelow(shape, high / 2) > probability) high /= 2;
  let low = high / 2;
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (gammaBelow(shape, middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
