/**
 * A surface whose temperature swings as a sine, over a deep uniform solid: how much of the swing reaches a depth and
 * how late, and back from what reached it to the diffusivity.
 *
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 2.6 (clause from memory). Exact for one
 * dimension: beside a bed's walls the wave arrives from there too, earlier and larger than this says.
 */
import { requireInDomain } from '../errors.js';
import { GREATEST_DISTANCE_m, requireDiffusivity } from './medium.js';

/** From a minute to a thousand years, s. */
const requirePeriod = (period_s: number): void => requireInDomain('period, s,', period_s, 60, 3.2e10);
const requireDepth = (depth_m: number): void => requireInDomain('depth, m,', depth_m, 0, GREATEST_DISTANCE_m);
const requireDampingDepth = (damping_m: number): void =>
  requireInDomain('damping depth, m,', damping_m, 1e-6, GREATEST_DISTANCE_m);

/**
 * Depth at which 1/e (37 %) of the swing is left: sqrt(2 diffusivity / omega).
 *
 * @param diffusivity_m2_s m2/s
 * @param period_s s
 * @returns m: 0.07 (dry sand) to 0.18 (moist) for the day, 1.4 to 3.5 for the year
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function dampingDepth_m(diffusivity_m2_s: number, period_s: number): number {
  requireDiffusivity(diffusivity_m2_s);
  requirePeriod(period_s);
  return Math.sqrt((diffusivity_m2_s * period_s) / Math.PI);
}

/**
 * Share of the surface's amplitude that is left at a depth.
 *
 * @param depth_m 0 or more, below the surface
 * @param damping_m damping depth for the period, m
 * @returns 0..1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function waveAmplitudeShare(depth_m: number, damping_m: number): number {
  requireDepth(depth_m);
  requireDampingDepth(damping_m);
  return Math.exp(-depth_m / damping_m);
}

/**
 * Time by which the wave is later at a depth than at the surface; may exceed a period.
 *
 * @param depth_m 0 or more, below the surface
 * @param damping_m damping depth for the period, m
 * @param period_s s
 * @returns s
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function waveLag_s(depth_m: number, damping_m: number, period_s: number): number {
  requireDepth(depth_m);
  requireDampingDepth(damping_m);
  requirePeriod(period_s);
  return ((depth_m / damping_m) * period_s) / (2 * Math.PI);
}

/**
 * Diffusivity from the swing that is left further down; needs no surface, two depths in the same solid do.
 *
 * @param distance_m how much deeper, 1 mm or more
 * @param amplitudeShare lower over upper amplitude, between 0 and 1, both excluded
 * @param period_s s
 * @returns m2/s
 * @throws SandlarderError OUT_OF_DOMAIN also where the result is that of no solid
 */
export function diffusivityFromAmplitude_m2_s(
  distance_m: number,
  amplitudeShare: number,
  period_s: number,
): number {
  requireInDomain('distance, m,', distance_m, 0.001, GREATEST_DISTANCE_m);
  requireInDomain('share of the amplitude', amplitudeShare, Number.MIN_VALUE, 1 - Number.EPSILON);
  return diffusivityOf(distance_m / -Math.log(amplitudeShare), period_s);
}

/**
 * Diffusivity from how much later the wave comes further down. In a deep solid it equals that from the amplitude;
 * where the two disagree, heat comes from the sides or the air moves.
 *
 * @param distance_m how much deeper, 1 mm or more
 * @param lag_s later by, above 0
 * @param period_s s
 * @returns m2/s
 * @throws SandlarderError OUT_OF_DOMAIN also where the result is that of no solid
 */
export function diffusivityFromLag_m2_s(distance_m: number, lag_s: number, period_s: number): number {
  requireInDomain('distance, m,', distance_m, 0.001, GREATEST_DISTANCE_m);
  requirePeriod(period_s);
  requireInDomain('lag, s,', lag_s, 1, 3.2e10);
  return diffusivityOf((distance_m * period_s) / (2 * Math.PI * lag_s), period_s);
}

function diffusivityOf(damping_m: number, period_s: number): number {
  requirePeriod(period_s);
  const diffusivity_m2_s = (Math.PI * damping_m * damping_m) / period_s;
  requireDiffusivity(diffusivity_m2_s);
  return diffusivity_m2_s;
}
