/** Whether a sample that is dried and weighed again and again has dried out. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { type SandLimits, sandLimits } from './sand-limits.js';

/**
 * - `constant` the last two weighings agree
 * - `losing` heat it on
 * - `gained` heavier than before: it took up damp air, or something fell in
 * - `unknown` weighed fewer than two times, or the balance shows too coarse a step to tell
 */
export type DryingState = 'constant' | 'losing' | 'gained' | 'unknown';

export interface DryingWeighings {
  /** With the container, in order of time. */
  readonly masses_g: readonly number[];
  readonly container_g: number;
  readonly resolution_g: number;
}

/**
 * Constant mass by the last two weighings, `sand_constant_mass_percent` of the first mass of sand. Between them the
 * sample must have been heated again: an hour in an oven, some minutes in a pan (from memory).
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a mass that is not above that of the container
 */
export function dryingState(weighings: DryingWeighings, limits: SandLimits = sandLimits()): DryingState {
  const { masses_g, container_g, resolution_g } = weighings;
  requireInDomain('step of the balance, g,', resolution_g, 1e-6, 100);
  requireInDomain('mass of the container, g,', container_g, 0, 1e6);
  for (const mass_g of masses_g)
    if (!(mass_g > container_g && mass_g <= 1e6))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `mass of the sample must be above that of its container, ${container_g} g, got ${mass_g} g`,
      );
  const [before_g, last_g] = masses_g.slice(-2);
  const first_g = masses_g[0];
  if (first_g === undefined || before_g === undefined || last_g === undefined) return 'unknown';
  return stateOf(
    before_g - last_g,
    ((first_g - container_g) * limits.sand_constant_mass_percent) / 100,
    resolution_g,
  );
}

/** Sums of decimal fractions are off by a last binary digit. */
const ROUNDING_g = 1e-9;

function stateOf(lost_g: number, allowed_g: number, resolution_g: number): DryingState {
  if (lost_g > allowed_g + ROUNDING_g) return 'losing';
  if (lost_g < -allowed_g - ROUNDING_g) return 'gained';
  return resolution_g <= allowed_g + ROUNDING_g ? 'constant' : 'unknown';
}
