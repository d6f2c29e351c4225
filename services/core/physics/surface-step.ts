/**
 * A deep solid of one temperature whose surface is brought to another at one instant and held there: a hot spell
 * that comes and stays, a cover taken off.
 *
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 2.4 (clause from memory).
 */
import { requireInDomain } from '../errors.js';
import { erfc } from './error-function.js';
import { GREATEST_DISTANCE_m, GREATEST_TIME_s, requireDiffusivity } from './medium.js';

/**
 * Share of the surface's change that has arrived at a depth: erfc(z / (2 sqrt(diffusivity t))).
 *
 * @param depth_m 0 or more, below the surface
 * @param diffusivity_m2_s m2/s
 * @param elapsed_s s since the change; 0 or below is before it, and nothing has arrived below the surface
 * @returns 0..1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function stepArrivedShare(depth_m: number, diffusivity_m2_s: number, elapsed_s: number): number {
  requireInDomain('depth, m,', depth_m, 0, GREATEST_DISTANCE_m);
  requireDiffusivity(diffusivity_m2_s);
  requireInDomain('elapsed time, s,', elapsed_s, -GREATEST_TIME_s, GREATEST_TIME_s);
  if (elapsed_s <= 0) return 0;
  return erfc(depth_m / (2 * Math.sqrt(diffusivity_m2_s * elapsed_s)));
}

/**
 * Temperature at a depth after the step.
 *
 * @param before_C temperature of the whole solid before, °C
 * @param surface_C temperature that the surface is held at since, °C
 * @param arrivedShare share of the change that has arrived there, 0..1
 * @returns °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function temperatureAfterStep_C(before_C: number, surface_C: number, arrivedShare: number): number {
  requireInDomain('temperature before, °C,', before_C, -273.15, 2000);
  requireInDomain('surface temperature, °C,', surface_C, -273.15, 2000);
  requireInDomain('share that has arrived', arrivedShare, 0, 1);
  return before_C + (surface_C - before_C) * arrivedShare;
}
