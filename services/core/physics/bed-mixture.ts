/**
 * Sand with roots in it as one body: what a probe among roots feels.
 *
 * Source: Maxwell 1873 for balls scattered in a medium (from memory), good while they do not touch; a bed has about
 * one part of roots to four of sand (computed from its layers). Heat capacities add up by volume.
 */
import { requireInDomain } from '../errors.js';
import type { Medium } from './medium.js';
import { ROOT_CONDUCTIVITY_W_mK, ROOT_DIFFUSIVITY_m2_s } from './roots.js';
import { conductivityOfSand_W_mK } from './sand-conductivity.js';
import { heatCapacityOfSand_J_m3K } from './sand-grains.js';

/** Roots in a heap without sand fill 0.6 (from memory); Maxwell's balls touch before that. */
const GREATEST_ROOT_SHARE = 0.5;

/** 4.1e6 J/(m3 K): conductivity over diffusivity, both measured on the same flesh. */
const ROOT_CAPACITY_J_m3K = ROOT_CONDUCTIVITY_W_mK / ROOT_DIFFUSIVITY_m2_s;

/**
 * Conductivity and diffusivity of sand with roots.
 *
 * @param porosity of the sand between the roots, 0.25 to 0.55
 * @param waterContent of the sand between the roots, 0 to `porosity`, m3/m3
 * @param rootShare volume of roots in a volume of bed, 0 to 0.5
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function mediumOfBed(porosity: number, waterContent: number, rootShare: number): Medium {
  requireInDomain('share of roots, m3/m3,', rootShare, 0, GREATEST_ROOT_SHARE);
  const sand_W_mK = conductivityOfSand_W_mK(porosity, waterContent);
  const sand_J_m3K = heatCapacityOfSand_J_m3K(porosity, waterContent);
  const apart_W_mK = 2 * sand_W_mK + ROOT_CONDUCTIVITY_W_mK;
  const pull_W_mK = rootShare * (ROOT_CONDUCTIVITY_W_mK - sand_W_mK);
  const conductivity_W_mK = (sand_W_mK * (apart_W_mK + 2 * pull_W_mK)) / (apart_W_mK - pull_W_mK);
  const capacity_J_m3K = (1 - rootShare) * sand_J_m3K + rootShare * ROOT_CAPACITY_J_m3K;
  return { conductivity_W_mK, diffusivity_m2_s: conductivity_W_mK / capacity_J_m3K };
}
