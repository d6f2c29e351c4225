/** Water in a bed's sand: where it has come to by a day, from a leak above or creeping in from below. */
import { type BedModel, setMaterial } from './bed-model.js';
import {
  DAMP_WATER,
  type DampingOrder,
  dampingOrder,
  dampness,
  front_L,
  SATURATES_WATER,
} from './damping.js';
import { middle } from './grid.js';
import { leaked_L, type WettingOrder, wettingOrder } from './leak.js';
import type { SimulatedBed } from './scenario.js';
import type { Unknowns } from './unknowns.js';

/** Heat capacity of water, J/(m3 K). */
const WATER_J_m3K = 4.18e6;

export class Moisture {
  readonly #bed: SimulatedBed;
  readonly #model: BedModel;
  readonly #unknowns: Unknowns;
  readonly #wetting: WettingOrder | undefined;
  readonly #damping: DampingOrder | undefined;
  readonly #wet: Uint8Array;
  readonly #damp: Float64Array;
  #front_L = 0;
  /** Middles of the cells that a leak has wetted, m, in the order of their wetting. */
  readonly wetPlaces: (readonly [x: number, y: number, z: number])[] = [];

  constructor(bed: SimulatedBed, model: BedModel, unknowns: Unknowns) {
    this.#bed = bed;
    this.#model = model;
    this.#unknowns = unknowns;
    const { grid } = model.conduction;
    this.#wetting = bed.leak && wettingOrder(grid, bed.leak, model.inBed);
    this.#damping = bed.damping && dampingOrder(grid, bed, model.inBed);
    this.#wet = new Uint8Array(grid.count);
    this.#damp = new Float64Array(grid.count);
  }

  /** Whether a leak has wetted a cell. */
  wet(cell: number): boolean {
    return this.#wet[cell] === 1;
  }

  /** How near the air of a cell is to saturated by the water that has crept in: 0 to 1. */
  damp(cell: number): number {
    return Math.min(1, ((this.#damp[cell] as number) * DAMP_WATER) / SATURATES_WATER);
  }

  /** Takes the water to where it has come by the day. */
  upTo(day: number): void {
    const creptOn = this.#creepTo(day);
    const ranOn = this.#runTo(day);
    if (creptOn || ranOn) this.#model.conduction.prepare(this.#model.outer);
  }

  #runTo(day: number): boolean {
    const { leak } = this.#bed;
    if (!leak || !this.#wetting) return false;
    const { cells, litres } = this.#wetting;
    const before = this.wetPlaces.length;
    const water_L = leaked_L(leak, day);
    for (let at = before; at < cells.length && (litres[at] as number) <= water_L; at += 1) {
      const cell = cells[at] as number;
      this.#wet[cell] = 1;
      setMaterial(this.#model.conduction, cell, this.#unknowns.wetSand);
      this.wetPlaces.push(this.#middleOf(cell));
    }
    return this.wetPlaces.length > before;
  }

  #creepTo(day: number): boolean {
    const { damping } = this.#bed;
    if (!damping || !this.#damping || !(day > damping.startDay)) return false;
    const { cells, sooner_L, all_L } = this.#damping;
    const front = front_L(leaked_L(damping, day), all_L);
    if (this.#front_L === front) return false;
    this.#front_L = front;
    cells.forEach((cell, at) => {
      this.#damp[cell] = dampness(front, sooner_L[at] as number, all_L);
      if (!this.wet(cell)) this.#dampen(cell);
    });
    return true;
  }

  #dampen(cell: number): void {
    const { sand, dampConducts_times } = this.#unknowns;
    const damp = this.#damp[cell] as number;
    setMaterial(this.#model.conduction, cell, {
      conductivity: sand.conductivity * (1 + (dampConducts_times - 1) * damp),
      capacity: sand.capacity + WATER_J_m3K * DAMP_WATER * damp,
    });
  }

  #middleOf(cell: number): readonly [number, number, number] {
    const { grid } = this.#model.conduction;
    const [i, j, k] = [
      cell % grid.nx,
      Math.floor(cell / grid.nx) % grid.ny,
      Math.floor(cell / (grid.nx * grid.ny)),
    ];
    return [middle(grid.wallsX, i), middle(grid.wallsY, j), middle(grid.wallsZ, k)];
  }
}
