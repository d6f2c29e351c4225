/**
 * What a bed is taken for before anything of it is known. The filter learns how far it is otherwise.
 */

/** Thermal conductivity W/(m K), volumetric heat capacity J/(m3 K). */
export interface Material {
  readonly conductivity: number;
  readonly capacity: number;
}

/**
 * Sand with a fifth of its volume roots: four parts of loose dry sand (0.24, 1.28e6: table after de Vries 1963 and
 * Smits et al. 2010, in a textbook on transport in soil), one of roots (0.49, 3.9e6: Farinu & Baik 2007, abstract).
 * Computed: 0.28 to 0.35 and 1.8e6.
 */
export const SAND_WITH_ROOTS: Material = { conductivity: 0.3, capacity: 1.8e6 };

/** Sandy ground in a dry season, between the dry and the moist rows of the same table. Judgement. */
export const GROUND: Material = { conductivity: 0.9, capacity: 1.7e6 };

/** Heat passed by a film of still air under a roof, by one of moving air, and by 25 mm of board with its film, W/(m2 K). From memory. */
export const STILL_AIR_W_m2K = 8;
export const OPEN_AIR_W_m2K = 15;
export const BOARD_W_m2K = 3.1;

/** Longest cell sideways and downwards, m: sources and probes are a hand's breadth apart at the least. */
export const CELL_m = 0.14;
export const LAYER_m = 0.07;

/** Widths of the cells of ground beside and below a pit, m: beyond, a season's warmth hardly comes. */
export const MARGIN_m = [0.15, 0.25, 0.5];
export const BOTTOM_m = [0.1, 0.15, 0.25, 0.5];

/** Roots in a cubic metre of bed where the description does not say, kg. Computed: 120 to 220. */
export const ROOTS_kg_m3 = 150;

/** Rise of respiration in 10 °C. From memory; textbooks say two to three. */
export const RESPIRATION_Q10 = 2.1;
