/**
 * Thermal conductivity and diffusivity of quartz sand, dry to saturated.
 *
 * Source: Johansen 1975 as quoted in Farouki 1986 (dry formula seen in code that quotes its 3.3.2, +-20 %; Kersten
 * number of coarse soil and conductivity of saturated soil from memory). Against the table after de Vries 1963 and
 * Smits et al. 2010 it is up to 7 % high from dry to moist and up to 15 % high when saturated; against the ranges of
 * Farouki 1982 for sand at 5 to 15 % of water by mass it lies at their lower end.
 */
import { requireInDomain } from '../errors.js';
import {
  dryDensityOfSand_kg_m3,
  heatCapacityOfSand_J_m3K,
  requirePorosity,
  requireWaterContent,
} from './sand-grains.js';

/** Johansen: conductivity of quartz; of water at 20 °C. W/(m K). From memory. */
const QUARTZ_W_mK = 7.7;
const WATER_W_mK = 0.6;

/** Johansen: the Kersten number of coarse soil holds above this saturation. From memory. */
const KERSTEN_FROM_SATURATION = 0.05;

/**
 * Dry sand: (0.135 density + 64.7) / (2700 - 0.947 density), +-20 %.
 *
 * @param dryDensity_kg_m3 1100 to 2000
 * @returns W/(m K)
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function dryConductivityOfSand_W_mK(dryDensity_kg_m3: number): number {
  requireInDomain('dry density, kg/m3,', dryDensity_kg_m3, 1100, 2000);
  return (0.135 * dryDensity_kg_m3 + 64.7) / (2700 - 0.947 * dryDensity_kg_m3);
}

/**
 * Saturated sand: geometric mean of grains and water by their shares.
 *
 * @param porosity 0.25 to 0.55
 * @returns W/(m K)
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function saturatedConductivityOfSand_W_mK(porosity: number): number {
  requirePorosity(porosity);
  return QUARTZ_W_mK ** (1 - porosity) * WATER_W_mK ** porosity;
}

const coarseKersten = (saturation: number): number => 0.7 * Math.log10(saturation) + 1;

/**
 * Kersten number of coarse soil: how far conductivity has come from dry to saturated.
 *
 * @param saturation share of the pores that is full of water, 0..1
 * @returns 0..1: 0.7 log10(saturation) + 1 from 0.05 on; below, where the formula is not meant to be used, a straight
 *   line to dry (judgement)
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function kerstenNumber(saturation: number): number {
  requireInDomain('saturation, a fraction,', saturation, 0, 1);
  if (saturation >= KERSTEN_FROM_SATURATION) return coarseKersten(saturation);
  return (saturation / KERSTEN_FROM_SATURATION) * coarseKersten(KERSTEN_FROM_SATURATION);
}

/**
 * Conductivity of sand: dry, and from there to saturated by the Kersten number.
 *
 * @param porosity 0.25 to 0.55
 * @param waterContent 0 to `porosity`, m3/m3
 * @returns W/(m K)
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function conductivityOfSand_W_mK(porosity: number, waterContent: number): number {
  requireWaterContent(porosity, waterContent);
  const dry_W_mK = dryConductivityOfSand_W_mK(dryDensityOfSand_kg_m3(porosity));
  const range_W_mK = saturatedConductivityOfSand_W_mK(porosity) - dry_W_mK;
  return dry_W_mK + kerstenNumber(waterContent / porosity) * range_W_mK;
}

/**
 * Diffusivity of sand: conductivity over heat capacity. It rises steeply with the first water, is greatest about
 * half full and falls a little to saturation: one diffusivity above that of saturated sand fits two water contents.
 *
 * @param porosity 0.25 to 0.55
 * @param waterContent 0 to `porosity`, m3/m3
 * @returns m2/s
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function diffusivityOfSand_m2_s(porosity: number, waterContent: number): number {
  return conductivityOfSand_W_mK(porosity, waterContent) / heatCapacityOfSand_J_m3K(porosity, waterContent);
}
