/**
 * What nobody knows of a bed: how its sand, ground, roots and roof differ from the usual.
 *
 * Every one is drawn by a name of its own, so that another one more does not change those that are there. The ranges
 * are judgement, about what the sources of the usual values leave open.
 */
import {
  BOX_WALL_W_m2K,
  GROUND,
  type Material,
  OPEN_AIR_W_m2K,
  SAND_WITH_ROOTS,
  STILL_AIR_W_m2K,
  SUN_UNDER_THATCH_C,
  WET_SAND,
} from './materials.js';
import { randomFor } from './random.js';
import { type Respiration, USUAL_RESPIRATION } from './respiration.js';
import type { Scenario, SimulatedBed } from './scenario.js';

export interface Unknowns {
  readonly sand: Material;
  readonly wetSand: Material;
  readonly ground: Material;
  readonly respiration: Respiration;
  /** Films of air, and the boards of a box, W/(m2 K). */
  readonly films: { readonly still: number; readonly open: number; readonly boards: number };
  readonly roof: Roofing;
  /** Of the ground below against what the scenario says, °C. */
  readonly deepWarmer_C: number;
  /** Of the sand as it is filled in against the air, °C. */
  readonly filledWarmer_C: number;
  /** Conductivity of sand that has become damp through and through, in those of the dry sand. */
  readonly dampConducts_times: number;
}

export interface Roofing {
  /** What clear noon sun adds to the air under it, °C. */
  readonly sun_C: number;
  /** How much later in the day its sun comes than the open ground's; earlier where negative, h. */
  readonly sunLater_h: number;
  /** How fast a hut's inside follows the air, h, and how much warmer it is, °C. */
  readonly hutFollows_h: number;
  readonly hutWarmer_C: number;
}

/** Low, usual and high value of an unknown. Half of the beds lie below the usual value, half above. */
type Range = readonly [low: number, usual: number, high: number];

/** Sand as it is filled in: air-dried in the sun and cooled for days, a little warmer than the air. Judgement. */
const FILLED_WARMER_C: Range = [-1, 1.5, 6];
/** From memory: a hut of one room. */
const HUT_FOLLOWS_h: Range = [3, 5, 8];
const HUT_WARMER_C: Range = [0, 1, 2];
const QUARTER: Range = [0.75, 1, 1.25];
const THIRD: Range = [0.65, 1, 1.35];

export function unknownsOf({ variation }: Scenario, { id }: SimulatedBed, seed: number): Unknowns {
  const draw = (name: string, [low, usual, high]: Range): number => {
    const towards = variation * (2 * randomFor(seed, 'unknown', id, name)() - 1);
    return usual + (towards < 0 ? usual - low : high - usual) * towards;
  };
  const times = ({ conductivity, capacity }: Material, conducts: number, holds: number): Material => ({
    conductivity: conductivity * conducts,
    capacity: capacity * holds,
  });
  const sand = [draw('sand conductivity', QUARTER), draw('sand capacity', QUARTER)] as const;
  const ground = [draw('ground conductivity', THIRD), draw('ground capacity', THIRD)] as const;
  const usual = USUAL_RESPIRATION;
  return {
    sand: times(SAND_WITH_ROOTS, ...sand),
    wetSand: times(WET_SAND, ...sand),
    ground: times(GROUND, ...ground),
    respiration: {
      at15_C_W_kg: usual.at15_C_W_kg * draw('respiration', [0.6, 1, 1.8]),
      q10: draw('respiration with warmth', [1.8, usual.q10, 2.4]),
      freshShare: draw('fresh roots', [0.3, usual.freshShare, 0.9]),
      settlesIn_days: draw('settling', [7, usual.settlesIn_days, 20]),
    },
    films: {
      still: STILL_AIR_W_m2K * draw('still air', QUARTER),
      open: OPEN_AIR_W_m2K * draw('open air', THIRD),
      boards: BOX_WALL_W_m2K * draw('boards', QUARTER),
    },
    roof: {
      sun_C: draw('sun under the roof', [0, SUN_UNDER_THATCH_C, 4]),
      sunLater_h: draw('hour of the sun', [-2, 0, 2]),
      hutFollows_h: draw('hut follows', HUT_FOLLOWS_h),
      hutWarmer_C: draw('hut warmer', HUT_WARMER_C),
    },
    deepWarmer_C: draw('deep ground', [-1.5, 0, 1.5]),
    filledWarmer_C: draw('filled sand', FILLED_WARMER_C),
    dampConducts_times: draw('damp sand conducts', [2, 3.5, 5]),
  };
}
