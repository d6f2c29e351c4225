/** One bed through its season, hour by hour: what the sand is like at each of its probes. */
import { startOf } from './air-file.js';
import { type BedModel, buildBed, OUTSIDE, setMaterial } from './bed-model.js';
import { eachCell, interpolation, middle } from './grid.js';
import { leaked_L, type WettingOrder, wettingOrder } from './leak.js';
import { SUN_ON_GROUND_C, SUN_UNDER_THATCH_C, WET_SAND } from './materials.js';
import { respiration_W_kg } from './respiration.js';
import { rot_W, rotShares } from './rot.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import type { Hour } from './weather.js';

/** Readings are taken at whole tens of minutes. */
export const TICK_s = 600;
const TICKS_AN_HOUR = 6;

/** How fast a hut's inside follows the air, h, and how much warmer it is. From memory. */
const HUT_FOLLOWS_h = 5;
const HUT_WARMER_C = 1;

/** Sand as it is filled in: air-dried in the sun and cooled for days, a little warmer than the air. Judgement. */
const FILLED_WARMER_C = 1.5;

export interface SandAt {
  readonly temperature_C: number;
  /** Whether the sand there has taken up water. */
  readonly wet: boolean;
  /** Distance to the nearest wet sand, m; infinite where there is none. */
  readonly fromWet_m: number;
}

/** Where a probe is, and what a value there is made of. */
interface Point {
  readonly weights: readonly { cell: number; weight: number }[];
  /** Cell that it lies in. */
  readonly nearest: number;
  readonly place: readonly [x: number, y: number, z: number];
  fromWet_m: number;
}

export class BedRun {
  readonly #bed: SimulatedBed;
  readonly #model: BedModel;
  readonly #deepGround_C: number;
  readonly #rot_share: Float64Array | undefined;
  readonly #wetting: WettingOrder | undefined;
  readonly #wet: Uint8Array;
  #wetted = 0;
  readonly #points: Point[];
  #sheltered_C: number;
  #hour = 0;

  constructor(scenario: Scenario, bed: SimulatedBed, first: Hour) {
    this.#bed = bed;
    this.#model = buildBed(bed);
    this.#deepGround_C = scenario.deepGround_C;
    const { grid } = this.#model.conduction;
    this.#rot_share = bed.rot && rotShares(grid, bed.rot);
    this.#wetting = bed.leak && wettingOrder(grid, bed.leak, this.#model.inBed);
    this.#wet = new Uint8Array(grid.count);
    const { airTemperatures_C, weather } = scenario;
    const start_C = airTemperatures_C ? startOf(airTemperatures_C) : (weather.means[0]?.[1] ?? first.air_C);
    this.#sheltered_C = start_C;
    this.#fill(start_C);
    this.#points = bed.probes.map(({ x, y, depth }): Point => {
      const place = [x / 100, y / 100, depth / 100] as const;
      const weights = interpolation(grid, x / 100, y / 100, depth / 100);
      const nearest = weights.reduce((one, other) => (other.weight > one.weight ? other : one)).cell;
      return { weights, nearest, place, fromWet_m: Number.POSITIVE_INFINITY };
    });
  }

  /** Ground between the air's mean above and its own below; sand as it was filled in. */
  #fill(start_C: number): void {
    const { conduction, inBed } = this.#model;
    const { grid, temperature_C } = conduction;
    const depth = grid.wallsZ[grid.nz] as number;
    eachCell(grid, (cell, _i, _j, k) => {
      const share = middle(grid.wallsZ, k) / depth;
      const ground_C = start_C + share * (this.#deepGround_C - start_C);
      temperature_C[cell] = inBed[cell] === 1 ? start_C + FILLED_WARMER_C : ground_C;
    });
  }

  /** Heat content, roots' and rot's release and boundary inflow are the conduction's: for tests of conservation. */
  get model(): BedModel {
    return this.#model;
  }

  /**
   * Goes on by one hour.
   *
   * @param from weather at its beginning
   * @param to weather at its end
   * @returns the sand at each probe, at the end of each ten minutes
   */
  next(from: Hour, to: Hour): SandAt[][] {
    const day = this.#hour / 24;
    this.#release(day);
    this.#wetUpTo(day);
    const ticks: SandAt[][] = [];
    for (let tick = 0; tick < TICKS_AN_HOUR; tick += 1) {
      this.#tick(from, to, (tick + 0.5) / TICKS_AN_HOUR);
      ticks.push(this.#points.map((point) => this.#at(point)));
    }
    this.#hour += 1;
    return ticks;
  }

  #tick(from: Hour, to: Hour, share: number): void {
    const air_C = from.air_C + share * (to.air_C - from.air_C);
    const sun = from.sun + share * (to.sun - from.sun);
    const outside_C: number[] = [];
    outside_C[OUTSIDE.sheltered] = this.#shelter(air_C, sun);
    outside_C[OUTSIDE.open] = air_C + SUN_ON_GROUND_C * sun;
    outside_C[OUTSIDE.deep] = this.#deepGround_C;
    const { conduction } = this.#model;
    const steps = Math.ceil(TICK_s / conduction.longestStep_s);
    for (let step = 0; step < steps; step += 1) conduction.step(TICK_s / steps, outside_C);
  }

  /** Air over a pit under its thatch, or in the hut around a box, °C. */
  #shelter(air_C: number, sun: number): number {
    if (this.#bed.kind !== 'box') return air_C + SUN_UNDER_THATCH_C * sun;
    const target_C = air_C + HUT_WARMER_C + SUN_UNDER_THATCH_C * sun;
    this.#sheltered_C += ((target_C - this.#sheltered_C) * TICK_s) / (HUT_FOLLOWS_h * 3600);
    return this.#sheltered_C;
  }

  /** Heat that roots, sound and rotting, give off in the hour that begins. */
  #release(day: number): void {
    const { conduction, roots_kg } = this.#model;
    const { source_W, temperature_C } = conduction;
    const { rot } = this.#bed;
    const rotting_W = rot ? rot_W(rot, day) : 0;
    for (let cell = 0; cell < source_W.length; cell += 1) {
      const roots = roots_kg[cell] as number;
      const sound_W = roots === 0 ? 0 : roots * respiration_W_kg(temperature_C[cell] as number, day);
      source_W[cell] = sound_W + rotting_W * (this.#rot_share?.[cell] ?? 0);
    }
  }

  /** Takes the wet front to where the water has come by the day. */
  #wetUpTo(day: number): void {
    const { leak } = this.#bed;
    if (!leak || !this.#wetting || this.#hour % 6 !== 0) return;
    const { cells, litres } = this.#wetting;
    const before = this.#wetted;
    const water_L = leaked_L(leak, day);
    while (this.#wetted < cells.length && (litres[this.#wetted] as number) <= water_L) {
      const cell = cells[this.#wetted] as number;
      this.#wet[cell] = 1;
      setMaterial(this.#model.conduction, cell, WET_SAND);
      this.#noteWet(cell);
      this.#wetted += 1;
    }
    if (this.#wetted > before) this.#model.conduction.prepare(this.#model.outer);
  }

  #noteWet(cell: number): void {
    const { grid } = this.#model.conduction;
    const [i, j, k] = [
      cell % grid.nx,
      Math.floor(cell / grid.nx) % grid.ny,
      Math.floor(cell / (grid.nx * grid.ny)),
    ];
    const [x, y, z] = [middle(grid.wallsX, i), middle(grid.wallsY, j), middle(grid.wallsZ, k)];
    for (const point of this.#points) {
      const [px, py, pz] = point.place;
      point.fromWet_m = Math.min(point.fromWet_m, Math.hypot(px - x, py - y, pz - z));
    }
  }

  #at({ weights, nearest, fromWet_m }: Point): SandAt {
    const { temperature_C } = this.#model.conduction;
    let sum = 0;
    for (const { cell, weight } of weights) sum += weight * (temperature_C[cell] as number);
    return { temperature_C: sum, wet: this.#wet[nearest] === 1, fromWet_m };
  }
}
