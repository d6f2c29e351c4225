/**
 * Sweet potato roots: the heat that they release and what they are made of.
 *
 * No public table row for sweet potato could be seen. The rates are from memory (USDA Agriculture Handbook 66;
 * ASHRAE Refrigeration, heat of respiration): their two columns, mg of CO2 and mW, agree through the factor below,
 * which supports them and does not verify them.
 */
import { requireInDomain } from '../errors.js';

/**
 * Heat with each mg of CO2 a kg and hour, mW/kg, and so W/t. Computed from the combustion of glucose, 2805 to 2820
 * kJ/mol over six CO2 of 44.01 g: 10.62 to 10.68 kJ/g, 2.95 to 2.97.
 */
export const HEAT_OF_CARBON_DIOXIDE_W_t = 2.97;

/** Rate at 15 °C, W/kg. From memory; cured roots 0.0475 to 0.0684 by cultivar. */
export const RESPIRATION_AT_15_C_W_kg = { cured: 0.059, uncured: 0.086 } as const;
export type Curing = keyof typeof RESPIRATION_AT_15_C_W_kg;

/** Growth for each 10 °C. The remembered rates' own ratio is 1.9 to 2.2; a textbook says two to three times. */
export const RESPIRATION_Q10 = 2;

/** Density of whole fresh roots, kg/m3. From memory, the middle of 1030 to 1150; 1212 was measured on drier flesh. */
export const ROOT_DENSITY_kg_m3 = 1090;

/** Of the flesh, Farinu & Baik 2007, Int. J. Food Prop. 10, 703-719 (abstract): +-477 J/(kg K), +-0.038 W/(m K), +-0.09e-7 m2/s. */
export const ROOT_HEAT_CAPACITY_J_kgK = 3660;
export const ROOT_CONDUCTIVITY_W_mK = 0.49;
export const ROOT_DIFFUSIVITY_m2_s = 1.2e-7;

/** Where roots live, °C. The rates are remembered for 15 to 27 °C; outside it is their trend. */
const LEAST_C = 0;
const GREATEST_C = 45;

/**
 * Heat of respiration of sound roots.
 *
 * @param root_C temperature of the roots, 0 to 45 °C
 * @param curing `uncured` in the first days after harvest
 * @param q10 growth for each 10 °C, 1 to 4
 * @returns W/kg; +-20 % between cultivars at 15 °C, more between seasons
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function respiration_W_kg(root_C: number, curing: Curing = 'cured', q10 = RESPIRATION_Q10): number {
  requireInDomain('temperature of the roots, °C,', root_C, LEAST_C, GREATEST_C);
  requireInDomain('Q10', q10, 1, 4);
  return RESPIRATION_AT_15_C_W_kg[curing] * q10 ** ((root_C - 15) / 10);
}

/**
 * Heat that goes with a measured rate of CO2.
 *
 * @param carbonDioxide_mg_kg_h mg of CO2 from a kg of roots in an hour, 0 to 1000
 * @returns W/t, which is mW/kg
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function heatOfCarbonDioxide_W_t(carbonDioxide_mg_kg_h: number): number {
  requireInDomain('CO2, mg/(kg h),', carbonDioxide_mg_kg_h, 0, 1000);
  return HEAT_OF_CARBON_DIOXIDE_W_t * carbonDioxide_mg_kg_h;
}
