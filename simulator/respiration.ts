/** Warmth of healthy roots. */

export interface Respiration {
  /** Of a settled root at 15 °C, W/kg. */
  readonly at15_C_W_kg: number;
  /** How many times as much 10 °C higher. */
  readonly q10: number;
  /** How much more freshly filled roots respire, as a share, and days until 37 % of that is left. */
  readonly freshShare: number;
  readonly settlesIn_days: number;
}

/**
 * A cured root at 15 °C: 20 mg of CO2 a kilogram and hour times 2.97 mW for each. From memory: USDA Agriculture
 * Handbook 66 and ASHRAE Refrigeration, heat of respiration; 47.5 to 68.4 W/t by cultivar. Twice to 2.2 times for
 * each 10 °C (the memory values' own ratio; textbooks say two to three times). Uncured to cured is 29 to 20 mg (from
 * memory); the time in which roots settle is judgement.
 */
export const USUAL_RESPIRATION: Respiration = {
  at15_C_W_kg: 0.059,
  q10: 2,
  freshShare: 0.6,
  settlesIn_days: 12,
};

/**
 * From the first on roots respire no faster, from the second on they die, at the third none is left alive, °C.
 * Judgement: roots are injured by heat from about 35 °C on (synthesis of storage trials); without this a hot, thickly
 * laid bed would warm without end.
 */
const HOTTEST_C = { livelyTo: 36, aliveTo: 40, deadAt: 48 } as const;

/**
 * Heat of respiration of sound roots.
 *
 * @param root_C temperature of the roots, °C
 * @param day days since filling
 * @returns W/kg
 */
export function respiration_W_kg(
  root_C: number,
  day: number,
  { at15_C_W_kg, q10, freshShare, settlesIn_days }: Respiration = USUAL_RESPIRATION,
): number {
  const fresh = 1 + freshShare * Math.exp(-day / settlesIn_days);
  const alive = Math.min(
    1,
    Math.max(0, (HOTTEST_C.deadAt - root_C) / (HOTTEST_C.deadAt - HOTTEST_C.aliveTo)),
  );
  return at15_C_W_kg * q10 ** ((Math.min(root_C, HOTTEST_C.livelyTo) - 15) / 10) * fresh * alive;
}
