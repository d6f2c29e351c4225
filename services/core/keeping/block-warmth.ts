/**
 * Steady warmth in the middle of a block that releases heat evenly, its six faces held at one temperature.
 *
 * Source: H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 6.2 (from memory): a double series
 * of sines across the two shorter sides, each term with its own fall to the two far faces.
 */
import { requireInDomain } from '../errors.js';

/** Odd terms along each of two sides: the alternating rest is below 1e-5 of the sum. */
const TERMS = 40;

/** Sides of a block, m. */
export type Sides_m = readonly [number, number, number];

/** A hyperbolic cosine of more is more than a double holds; its reciprocal is nothing by then. */
const FAR = 700;

/**
 * Rise of the middle above the faces.
 *
 * @param release_W_m3 heat released evenly, 0 to 1000 W/m3
 * @param conductivity_W_mK 0.01 to 100
 * @param sides_m each 0.01 to 100 m, in any order
 * @returns °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function blockCentreRise_C(release_W_m3: number, conductivity_W_mK: number, sides_m: Sides_m): number {
  requireInDomain('heat released, W/m3,', release_W_m3, 0, 1000);
  requireInDomain('conductivity, W/(m K),', conductivity_W_mK, 0.01, 100);
  for (const side of sides_m) requireInDomain('side of the block, m,', side, 0.01, 100);
  const [shortest = 0, middle = 0, longest = 0] = [...sides_m].sort((one, other) => one - other);
  let sum_m2 = 0;
  for (let m = 1; m < 2 * TERMS; m += 2)
    for (let n = 1; n < 2 * TERMS; n += 2) {
      const square = ((m * Math.PI) / shortest) ** 2 + ((n * Math.PI) / middle) ** 2;
      const fall = (Math.sqrt(square) * longest) / 2;
      const sign = (-1) ** ((m + n) / 2 - 1);
      sum_m2 += (sign / (m * n * square)) * (1 - (fall > FAR ? 0 : 1 / Math.cosh(fall)));
    }
  return ((16 / Math.PI ** 2) * release_W_m3 * sum_m2) / conductivity_W_mK;
}
