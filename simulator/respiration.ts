/** Warmth of healthy roots. */

/**
 * A cured root at 15 °C, W/kg: 20 mg of CO2 a kilogram and hour times 2.97 mW for each. From memory: USDA
 * Agriculture Handbook 66 and ASHRAE Refrigeration, heat of respiration; 47.5 to 68.4 W/t by cultivar.
 */
const AT_15_C_W_kg = 0.059;

/** Twice to 2.2 times for each 10 °C (the memory values' own ratio; textbooks say two to three times). */
const Q10 = 2;

/** Freshly filled roots respire more, and settle. Uncured to cured is 29 to 20 mg (from memory); the time is judgement. */
const FRESH_SHARE = 0.6;
const SETTLES_IN_days = 12;

/**
 * Heat of respiration of sound roots.
 *
 * @param root_C temperature of the roots, °C
 * @param day days since filling
 * @returns W/kg
 */
export function respiration_W_kg(root_C: number, day: number): number {
  const fresh = 1 + FRESH_SHARE * Math.exp(-day / SETTLES_IN_days);
  return AT_15_C_W_kg * Q10 ** ((root_C - 15) / 10) * fresh;
}
