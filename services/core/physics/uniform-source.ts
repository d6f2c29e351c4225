/**
 * Steady warmth of a body that releases heat evenly, its surface held: what breathing roots make of a bed.
 *
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 3.14, 7.2, 9.8 (clauses from memory):
 * q (R^2 - r^2) / (2 k n), n 1, 2, 3 for slab, cylinder and sphere.
 */
import { requireInDomain } from '../errors.js';
import { GREATEST_DISTANCE_m, requireConductivity } from './medium.js';
import { DIMENSIONS, type Shape } from './shape.js';

/**
 * Rise above the surface.
 *
 * @param shape of the body
 * @param release_W_m3 heat released evenly, W/m3 of body; negative takes heat away
 * @param conductivity_W_mK of the body
 * @param radius_m of the body; of a slab half its thickness, m
 * @param place_m of the point from the middle, 0 to `radius_m`, m; 0 is the warmest
 * @returns °C; 0 at the surface
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function uniformSourceRise_C(
  shape: Shape,
  release_W_m3: number,
  conductivity_W_mK: number,
  radius_m: number,
  place_m = 0,
): number {
  requireInDomain('heat released, W/m3,', release_W_m3, -1e9, 1e9);
  requireConductivity(conductivity_W_mK);
  requireInDomain('radius, m,', radius_m, 1e-4, GREATEST_DISTANCE_m);
  requireInDomain('place from the middle, m,', place_m, 0, radius_m);
  const squares_m2 = (radius_m - place_m) * (radius_m + place_m);
  return (release_W_m3 * squares_m2) / (2 * conductivity_W_mK * DIMENSIONS[shape]);
}
