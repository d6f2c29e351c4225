/**
 * Dry, damp or wet, from how fast warmth spreads in a bed.
 *
 * Nobody has published such limits. These are what loose sand (porosity 0.40) with the bed's share of roots has at
 * 1 % of water by mass, above which sand should not be loaded, and at 2 %, from which it begins to sprout and rot
 * roots: both judgement. Without roots that is 0.31 and 0.58e-6 m2/s, between the published rows: dry 0.19 and 0.20,
 * moist and saturated 0.85 to 1.2 (table after de Vries 1963 and Smits et al. 2010), 0.23 dry and 0.74 saturated
 * (Oke 1987, from memory). In dense sand (0.33) the same limits are reached at 0.5 and 1.3 % already (computed).
 */
import { requireInDomain } from '../errors.js';
import { mediumOfBed } from './bed-mixture.js';
import { waterContentFromMass } from './sand-grains.js';

/** Wet takes in all from 2 % of water by mass to saturation: diffusivity cannot tell these apart. */
export const DAMPNESSES = ['dry', 'damp', 'wet'] as const;
export type Dampness = (typeof DAMPNESSES)[number];

/** kg of water to a kg of dry sand. Judgement. */
const DAMP_FROM_WATER = 0.01;
const WET_FROM_WATER = 0.02;

const LOOSE_POROSITY = 0.4;

/** Roots alone have 0.12e-6, loose dry sand 0.19e-6; densely packed moist quartz sand 1.3e-6. Beyond is no sand. m2/s. */
const LEAST_m2_s = 0.05e-6;
const GREATEST_m2_s = 3e-6;

export interface DampnessLimits {
  /** Least diffusivity of a damp and of a wet bed, m2/s. */
  readonly damp_m2_s: number;
  readonly wet_m2_s: number;
}

/**
 * Limits between dry, damp and wet.
 *
 * @param rootShare volume of roots in a volume of bed around the probe, 0 to 0.5; 0 is sand alone
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function dampnessLimits(rootShare = 0): DampnessLimits {
  const at_m2_s = (water: number): number =>
    mediumOfBed(LOOSE_POROSITY, waterContentFromMass(LOOSE_POROSITY, water), rootShare).diffusivity_m2_s;
  return { damp_m2_s: at_m2_s(DAMP_FROM_WATER), wet_m2_s: at_m2_s(WET_FROM_WATER) };
}

/**
 * What a diffusivity says about the sand.
 *
 * @param diffusivity_m2_s 0.05e-6 to 3e-6 m2/s
 * @param rootShare volume of roots in a volume of bed around the probe, 0 to 0.5; 0 is sand alone
 * @throws SandlarderError OUT_OF_DOMAIN for what no sand has: air moves through it, or the probe is misplaced
 */
export function dampnessOf(diffusivity_m2_s: number, rootShare = 0): Dampness {
  requireInDomain('diffusivity of sand, m2/s,', diffusivity_m2_s, LEAST_m2_s, GREATEST_m2_s);
  const { damp_m2_s, wet_m2_s } = dampnessLimits(rootShare);
  if (diffusivity_m2_s >= wet_m2_s) return 'wet';
  return diffusivity_m2_s >= damp_m2_s ? 'damp' : 'dry';
}

/**
 * What a diffusivity that is known from a lower to an upper end may say about the sand: one word if it is certain.
 *
 * @param low_m2_s lower end, 0.05e-6 m2/s or more
 * @param high_m2_s upper end, 3e-6 m2/s or less
 * @param rootShare as of `dampnessOf`
 * @returns from the driest to the wettest
 * @throws SandlarderError OUT_OF_DOMAIN also for a lower end above the upper
 */
export function dampnessBetween(low_m2_s: number, high_m2_s: number, rootShare = 0): readonly Dampness[] {
  requireInDomain('lower diffusivity, m2/s,', low_m2_s, LEAST_m2_s, high_m2_s);
  const driest = DAMPNESSES.indexOf(dampnessOf(low_m2_s, rootShare));
  const wettest = DAMPNESSES.indexOf(dampnessOf(high_m2_s, rootShare));
  return DAMPNESSES.slice(driest, wettest + 1);
}
