/**
 * A point source below a plane surface, by its mirror image above it.
 *
 * Source: method of images, Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 10.10 and 14.9 (clauses
 * from memory). Exact for a surface that is held at the undisturbed temperature and for an insulated one. For a
 * surface with a film of air it is an approximation: the sand is thought continued by k/h and held there.
 */
import { requireInDomain } from '../errors.js';
import { GREATEST_DISTANCE_m, type Medium, requireConductivity } from './medium.js';
import { type SourceHistory, sourceRise_C } from './point-source.js';

/**
 * What the surface does:
 * - `held` at the undisturbed temperature: heat leaves at once
 * - `insulated`: no heat passes
 * - `film`: heat leaves through a film of air or a board with a coefficient, W/(m2 K)
 */
export type Surface =
  | { readonly kind: 'held' }
  | { readonly kind: 'insulated' }
  | { readonly kind: 'film'; readonly coefficient_W_m2K: number };

/** Where a point lies from a source, both below the surface. */
export interface PlaceBelowSurface {
  /** Between the two along the surface, m. */
  readonly aside_m: number;
  /** Of the point below the surface, m, 0 or more. */
  readonly depth_m: number;
  /** Of the source below the surface, m, above 0. */
  readonly sourceDepth_m: number;
}

/** From a thick quilt to a gale, W/(m2 K). */
const FILM_W_m2K = { least: 0.05, greatest: 1000 };

/**
 * Depth of the medium that lets through as much as a film: k/h.
 *
 * @param conductivity_W_mK of the medium under the film
 * @param coefficient_W_m2K of the film, 0.05 to 1000
 * @returns m; dry sand under still air 0.03 to 0.05
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function filmDepth_m(conductivity_W_mK: number, coefficient_W_m2K: number): number {
  const { least, greatest } = FILM_W_m2K;
  requireInDomain('film coefficient, W/(m2 K),', coefficient_W_m2K, least, greatest);
  requireConductivity(conductivity_W_mK);
  return conductivity_W_mK / coefficient_W_m2K;
}

/**
 * Rise by a source below a surface, above what would be there without it.
 *
 * @param source its power and when it begins and grows
 * @param medium what both lie in
 * @param surface what lets its heat out, or does not
 * @param place where the point lies from the source
 * @param time_s s on the clock of `source.start_s`
 * @returns °C; 0 before it begins
 * @throws SandlarderError OUT_OF_DOMAIN also where point and source are the same
 * @remarks Under a film the rise is off, nearly always too small, and the more so the deeper `filmDepth_m` is against
 *   the shallower of point and source: up to 0.3 % of itself at a quarter, 1.5 % at 0.6, 6 % at 1, 10 % at 2, 16 % at 4.
 *   Compared with the exact integral over a line of images, both 5 to 60 cm deep and up to 40 cm aside, from 2 days on
 *   to steady, where the rise is 0.025 °C or more for each W. Dry sand under still air, 15 cm deep: a quarter.
 */
export function sourceRiseBelowSurface_C(
  source: SourceHistory,
  medium: Medium,
  surface: Surface,
  place: PlaceBelowSurface,
  time_s: number,
): number {
  const { aside_m, depth_m, sourceDepth_m } = place;
  requireInDomain('distance aside, m,', aside_m, 0, GREATEST_DISTANCE_m / 4);
  requireInDomain('depth, m,', depth_m, 0, GREATEST_DISTANCE_m / 4);
  requireInDomain('depth of the source, m,', sourceDepth_m, 0.001, GREATEST_DISTANCE_m / 4);
  const own_C = sourceRise_C(source, medium, Math.hypot(aside_m, depth_m - sourceDepth_m), time_s);
  const beyond_m =
    surface.kind === 'film' ? filmDepth_m(medium.conductivity_W_mK, surface.coefficient_W_m2K) : 0;
  const toImage_m = Math.hypot(aside_m, depth_m + sourceDepth_m + 2 * beyond_m);
  const image_C = sourceRise_C(source, medium, toImage_m, time_s);
  return surface.kind === 'insulated' ? own_C + image_C : own_C - image_C;
}
