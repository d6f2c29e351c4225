/**
 * What a bed and its surroundings are made of: thermal conductivity W/(m K), volumetric heat capacity J/(m3 K).
 */

export interface Material {
  readonly conductivity: number;
  readonly capacity: number;
}

/**
 * Sand with roots in it: four parts of loose dry sand (0.24, 1.28e6: table after de Vries 1963 and Smits et al.
 * 2010, in a textbook on transport in soil) and one part of roots (0.49, 3.9e6: Farinu & Baik 2007, abstract).
 * Computed.
 */
export const SAND_WITH_ROOTS: Material = { conductivity: 0.3, capacity: 1.8e6 };

/** Dry sandy ground: the same table, denser and not quite dry. Judgement between its rows. */
export const GROUND: Material = { conductivity: 0.9, capacity: 1.7e6 };

/**
 * Sand that has taken up what it can hold against drainage: conductivity four to six times that of dry sand at 2 to
 * 5 % of moisture (computed from Johansen's formula, as quoted from Farouki 1986), and the water's own heat.
 */
export const WET_SAND: Material = { conductivity: 1.6, capacity: 2.1e6 };

/** Water that a unit of sand takes up as a front passes, m3/m3. Judgement; drained sand holds 0.05 to 0.10 (computed). */
export const TAKEN_UP = 0.08;

/** Boards of a box, W/(m2 K), air film included. From memory: 25 mm of wood has 0.13/0.025 = 5, a film 8. */
export const BOX_WALL_W_m2K = 3.1;

/** Film of still air over a surface, W/(m2 K). From memory: 6 to 10 indoors and under a roof. */
export const STILL_AIR_W_m2K = 8;

/** Film of moving air over open ground, W/(m2 K). From memory. */
export const OPEN_AIR_W_m2K = 15;

/** How much warmer than the air clear noon sun makes bare ground, °C, and what a thatched roof lets through. From memory. */
export const SUN_ON_GROUND_C = 14;
export const SUN_UNDER_THATCH_C = 2;
