/**
 * Sand as grains, water and air: what its porosity and water content say by themselves.
 *
 * Porosity and water content are volumes in a volume of sand, m3/m3; loose sand has 0.40, dense 0.33.
 */
import { requireInDomain } from '../errors.js';

/** Density of quartz grains, kg/m3, and their heat capacity, J/(m3 K): table after de Vries 1963 and Smits et al. 2010. */
export const GRAIN_DENSITY_kg_m3 = 2660;
export const GRAIN_CAPACITY_J_m3K = 2.13e6;

/** Heat capacity of water, J/(m3 K): the same table. That of the air between (1.2e3) is left out: 0.04 % of dry sand. */
export const WATER_CAPACITY_J_m3K = 4.18e6;

/** Round grains of one size packed as loosely and as tightly as they go have 0.48 and 0.26; real sand lies between. */
const LEAST_POROSITY = 0.25;
const GREATEST_POROSITY = 0.55;

/** @throws SandlarderError OUT_OF_DOMAIN for what no sand has */
export function requirePorosity(porosity: number): void {
  requireInDomain('porosity, m3/m3,', porosity, LEAST_POROSITY, GREATEST_POROSITY);
}

/** @throws SandlarderError OUT_OF_DOMAIN for more water than pores */
export function requireWaterContent(porosity: number, waterContent: number): void {
  requirePorosity(porosity);
  requireInDomain('water content, m3/m3,', waterContent, 0, porosity);
}

/**
 * Dry density.
 *
 * @param porosity 0.25 to 0.55
 * @returns kg/m3
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function dryDensityOfSand_kg_m3(porosity: number): number {
  requirePorosity(porosity);
  return (1 - porosity) * GRAIN_DENSITY_kg_m3;
}

/**
 * Water content from a sample that was weighed moist and dried (ASTM D2216: water over dry mass).
 *
 * @param porosity 0.25 to 0.55
 * @param waterByMass kg of water to a kg of dry sand
 * @returns m3/m3
 * @throws SandlarderError OUT_OF_DOMAIN also for more than the pores hold
 */
export function waterContentFromMass(porosity: number, waterByMass: number): number {
  const waterContent = (waterByMass * dryDensityOfSand_kg_m3(porosity)) / 1000;
  requireWaterContent(porosity, waterContent);
  return waterContent;
}

/**
 * Volumetric heat capacity: grains and water by their shares.
 *
 * @param porosity 0.25 to 0.55
 * @param waterContent 0 to `porosity`
 * @returns J/(m3 K)
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function heatCapacityOfSand_J_m3K(porosity: number, waterContent: number): number {
  requireWaterContent(porosity, waterContent);
  return (1 - porosity) * GRAIN_CAPACITY_J_m3K + waterContent * WATER_CAPACITY_J_m3K;
}
