/** When and how far down the sand of a bed lies open: while somebody looks into it, or for good where sand was taken. */
import { eachCell, type Grid, middle } from './grid.js';
import type { SimulatedBed } from './scenario.js';
import type { Opening } from './scenario-bed.js';
import { TICKS_A_DAY, tickOf } from './ticks.js';

const openFrom = ({ day }: Opening): number => tickOf(day);
const openTo = ({ day, hours }: Opening): number => Math.max(tickOf(day) + 1, tickOf(day + hours / 24));

/** The day, with its time, on which the bed is closed again. */
export const closedAt = (opening: Opening): number => openTo(opening) / TICKS_A_DAY;

export class Cover {
  readonly #openings: readonly Opening[];
  readonly #taken: SimulatedBed['sandTaken'];

  constructor({ openings, sandTaken }: SimulatedBed) {
    this.#openings = openings;
    this.#taken = sandTaken;
  }

  /** Down to where there is no sand at a tick, cm; 0 for a covered bed. */
  gone_cm(tick: number): number {
    const taken_cm = this.#taken && tick >= tickOf(this.#taken.day) ? this.#taken.depth : 0;
    return this.#openings.reduce(
      (deepest, opening) =>
        tick >= openFrom(opening) && tick < openTo(opening) ? Math.max(deepest, opening.depth) : deepest,
      taken_cm,
    );
  }

  /** The opening that ends at a tick: sand goes back. */
  closing(tick: number): Opening | undefined {
    return this.#openings.find((opening) => openTo(opening) === tick);
  }
}

/** Cells of the bed whose middle lies higher than a depth. */
export function cellsAbove(grid: Grid, inBed: Uint8Array, depth_cm: number): number[] {
  const cells: number[] = [];
  eachCell(grid, (cell, _i, _j, k) => {
    if (inBed[cell] === 1 && middle(grid.wallsZ, k) * 100 < depth_cm) cells.push(cell);
  });
  return cells;
}
