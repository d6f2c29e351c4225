/**
 * How warm the middle of a sound bed will sit above what it stands in: the ground of a pit, the air around a box.
 *
 * The walls are taken as held at the temperature of what is around them. A body that lies within another is the cooler
 * of the two (maximum principle of conduction), so a stepped pit lies between the warmest block that fits into it and
 * the block that encloses it. Weather, and the ground that a bed itself warms, are not in it.
 */
import { requireInDomain } from '../errors.js';
import { mediumOfBed, RESPIRATION_AT_15_C_W_kg, respiration_W_kg } from '../physics/index.js';
import { BOARD_W_m2K } from '../watch/warmth/nominal.js';
import { blockCentreRise_C, type Sides_m } from './block-warmth.js';
import { figureOf, SAND_POROSITY } from './plan-figures.js';
import { depthOf_cm, type PlanKind, type PlanStep } from './plan-steps.js';

export interface SoundWarmth {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

export interface BedOfRoots {
  readonly kind: PlanKind;
  readonly steps: readonly PlanStep[];
  readonly roots_kg: number;
  readonly roots_L: number;
  readonly bed_L: number;
}

/** Of cured roots at 15 °C by variety, by the middle. From memory: 0.0475 to 0.0684 W/kg. */
const RATES = {
  low: 0.0475 / RESPIRATION_AT_15_C_W_kg.cured,
  mid: 1,
  high: 0.0684 / RESPIRATION_AT_15_C_W_kg.cured,
} as const;

const SPREAD = figureOf('conductivity_spread');
const CONDUCTION = { low: 1 + SPREAD, mid: 1, high: 1 - SPREAD } as const;

/** Roots are as warm as this share of the way from the wall to the middle. Judgement: 2/3 in a slab, less in a cube. */
const ROOTS_AT = 0.5;

/** Beyond, roots would not stay sound, °C, and a bed is taken to find no rest. */
const WARMEST_C = 45;

/** Enough for a change below a thousandth, or for running away. */
const ROUNDS = 200;
const SETTLED_C = 1e-4;

/** What ground and air may be, °C. */
export const GROUND_C = { low: 0, high: 40 } as const;

const inMetres = (length: number, width: number, depth: number): Sides_m => [
  length / 100,
  width / 100,
  depth / 100,
];

/** Rise for each W/m3 at conductivity 1: of the warmest block within the bed, and of the block around it. */
function boundsFor1_W_m3(steps: readonly PlanStep[]): { within: number; around: number } {
  const within = steps.map(({ length, width }, index) =>
    blockCentreRise_C(1, 1, inMetres(length, width, depthOf_cm(steps.slice(0, index + 1)))),
  );
  const { length, width } = steps[0] as PlanStep;
  return {
    within: Math.max(...within),
    around: blockCentreRise_C(1, 1, inMetres(length, width, depthOf_cm(steps))),
  };
}

/** Rise of a box's walls for each W in it, through boards and still air on all six sides, °C. */
function boards_C_W({ kind, steps }: BedOfRoots): number {
  if (kind !== 'box') return 0;
  const { length, width, height } = steps[0] as PlanStep;
  return 1e4 / (2 * (length * width + length * height + width * height) * BOARD_W_m2K);
}

/** Roots that are warmer give more: followed until it rests. */
function restOf(rise_C: (rate_W_kg: number) => number, rate: number, ground_C: number): number | undefined {
  let rise = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const roots_C = ground_C + ROOTS_AT * rise;
    if (!(roots_C <= WARMEST_C)) return undefined;
    const next = rise_C(rate * respiration_W_kg(roots_C));
    if (Math.abs(next - rise) < SETTLED_C) return next;
    rise = next;
  }
  return undefined;
}

/**
 * Rise of the middle of a bed of sound, cured roots in dry sand once it has settled.
 *
 * @param ground_C around a pit, or the air around a box, 0 to 40 °C
 * @returns °C; undefined where the heat would grow faster than it is carried off, at the high end of what is known
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function warmthAboveGround_C(bed: BedOfRoots, ground_C: number): SoundWarmth | undefined {
  requireInDomain('ground, °C,', ground_C, GROUND_C.low, GROUND_C.high);
  const { conductivity_W_mK } = mediumOfBed(SAND_POROSITY, 0, bed.roots_L / bed.bed_L);
  const { within, around } = boundsFor1_W_m3(bed.steps);
  const roots_kg_m3 = bed.roots_kg / (bed.bed_L / 1000);
  const boards_C_kg = boards_C_W(bed) * bed.roots_kg;
  const shapes = { low: within, mid: (within + around) / 2, high: around };
  const rise = (name: keyof SoundWarmth): number | undefined => {
    const block = (roots_kg_m3 * shapes[name]) / (conductivity_W_mK * CONDUCTION[name]);
    return restOf((rate_W_kg) => rate_W_kg * (block + boards_C_kg), RATES[name], ground_C);
  };
  const [low, mid, high] = [rise('low'), rise('mid'), rise('high')];
  if (low === undefined || mid === undefined || high === undefined) return undefined;
  return { low, mid, high };
}
