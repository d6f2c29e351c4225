/**
 * Heat released at one point of a solid without bounds: rot among roots, seen from a distance that is larger than
 * the cluster.
 *
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 10.4 (clause from memory): steady release
 * from an instant on gives q / (4 pi k r) erfc(r / (2 sqrt(diffusivity t))). A release that grows linearly is its
 * integral over time (computed), one that grows and then stays is the difference of two of those. Exact for a point;
 * a ball that releases the same heat evenly is the same outside itself once it is steady.
 */
import { requireInDomain } from '../errors.js';
import { erfc, fourTimesTwiceIntegratedErfc } from './error-function.js';
import { GREATEST_DISTANCE_m, GREATEST_TIME_s, type Medium, requireMedium } from './medium.js';

/** A release that begins at an instant, grows linearly to its full power and stays there. */
export interface SourceHistory {
  /** Full power, W; negative is a sink, a control that no rot can imitate. */
  readonly power_W: number;
  /** When it begins, s on the caller's clock. */
  readonly start_s: number;
  /** How long it grows to full power, 1 s or more; 0 is full power at once. */
  readonly growth_s: number;
}

/** Closer than this a cluster of roots is no point, m; the law grows beyond all bounds there. */
const LEAST_DISTANCE_m = 0.001;

/** Anything more is a mistaken unit, W. */
const GREATEST_POWER_W = 1e6;

const requirePower = (power_W: number): void =>
  requireInDomain('power, W,', power_W, -GREATEST_POWER_W, GREATEST_POWER_W);

function requirePlaceAndTime(medium: Medium, distance_m: number, elapsed_s: number): void {
  requireMedium(medium);
  requireInDomain('distance from the source, m,', distance_m, LEAST_DISTANCE_m, GREATEST_DISTANCE_m);
  requireInDomain('elapsed time, s,', elapsed_s, -GREATEST_TIME_s, GREATEST_TIME_s);
}

/** r / (2 sqrt(diffusivity t)) for a time above 0. */
const reach = (medium: Medium, distance_m: number, elapsed_s: number): number =>
  distance_m / (2 * Math.sqrt(medium.diffusivity_m2_s * elapsed_s));

/** °C for each W, once steady. */
const steady_C_W = (medium: Medium, distance_m: number): number =>
  1 / (4 * Math.PI * medium.conductivity_W_mK * distance_m);

/**
 * Rise by a source that releases the same power ever since it began.
 *
 * @param power_W W
 * @param medium what it lies in
 * @param distance_m from the source, 0.001 m or more
 * @param elapsed_s s since it began; 0 or below is before it, and nothing has risen
 * @returns °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function steadySourceRise_C(
  power_W: number,
  medium: Medium,
  distance_m: number,
  elapsed_s: number,
): number {
  requirePower(power_W);
  requirePlaceAndTime(medium, distance_m, elapsed_s);
  if (elapsed_s <= 0) return 0;
  return power_W * steady_C_W(medium, distance_m) * erfc(reach(medium, distance_m, elapsed_s));
}

/**
 * Rise by a source whose power grows by the same rate ever since it began, from nothing.
 *
 * @param growth_W_s W more with each second
 * @param medium what it lies in
 * @param distance_m from the source, 0.001 m or more
 * @param elapsed_s s since it began; 0 or below is before it, and nothing has risen
 * @returns °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function growingSourceRise_C(
  growth_W_s: number,
  medium: Medium,
  distance_m: number,
  elapsed_s: number,
): number {
  requireInDomain('growth of power, W/s,', growth_W_s, -GREATEST_POWER_W, GREATEST_POWER_W);
  requirePlaceAndTime(medium, distance_m, elapsed_s);
  if (elapsed_s <= 0) return 0;
  const arrived = fourTimesTwiceIntegratedErfc(reach(medium, distance_m, elapsed_s));
  return growth_W_s * elapsed_s * steady_C_W(medium, distance_m) * arrived;
}

/**
 * Rise by a source that begins, grows and stays.
 *
 * @param source its power and when it begins and grows
 * @param medium what it lies in
 * @param distance_m from the source, 0.001 m or more
 * @param time_s s on the clock of `source.start_s`
 * @returns °C; 0 before it begins
 * @throws SandlarderError OUT_OF_DOMAIN
 * @remarks As a difference of two growths it loses digits with elapsed over growth time: 1e-9 of the rise are left
 *   uncertain at a ratio of a million.
 */
export function sourceRise_C(
  source: SourceHistory,
  medium: Medium,
  distance_m: number,
  time_s: number,
): number {
  const { power_W, start_s, growth_s } = source;
  requirePower(power_W);
  requireInDomain('start of the source, s,', start_s, -GREATEST_TIME_s, GREATEST_TIME_s);
  const elapsed_s = time_s - start_s;
  if (growth_s === 0) return steadySourceRise_C(power_W, medium, distance_m, elapsed_s);
  requireInDomain('growth of the source, s, where it is not 0,', growth_s, 1, GREATEST_TIME_s);
  const growth_W_s = power_W / growth_s;
  const grown_s = elapsed_s - growth_s;
  const begun_C = growingSourceRise_C(growth_W_s, medium, distance_m, elapsed_s);
  return begun_C - growingSourceRise_C(growth_W_s, medium, distance_m, grown_s);
}
