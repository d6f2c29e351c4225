/**
 * Water that comes in at a place of the opening: a column that goes down, then a mound that spreads on the floor.
 *
 * Sand of this kind lets water through at centimetres a minute (Hazen's formula, computed for d10 of 0.25 to 0.4
 * mm), so in a day's step it goes where it goes; what matters is which cells it has reached by then. Cells take it
 * up in the order of how far they are from the leak, sideways counting more than down.
 */
import { eachCell, type Grid, middle } from './grid.js';
import { TAKEN_UP } from './materials.js';

export interface Leak {
  readonly startDay: number;
  /** Centimetres from the north-west corner of the opening. */
  readonly x: number;
  readonly y: number;
  readonly litres_per_day: number;
}

/** Radius of the column that goes straight down, m. */
const COLUMN_m = 0.1;
/** How many times harder the way sideways is. Judgement. */
const SIDEWAYS = 2.5;

/** The cells that a leak wets, in their order, with the water taken up by then, litres. */
export interface WettingOrder {
  readonly cells: Int32Array;
  /** Water in all when the cell has taken up what it can. */
  readonly litres: Float64Array;
}

/** @param inBed whether a cell holds sand of the bed */
export function wettingOrder(grid: Grid, { x, y }: Leak, inBed: Uint8Array): WettingOrder {
  const reached: { cell: number; way: number }[] = [];
  eachCell(grid, (cell, i, j, k) => {
    if (inBed[cell] !== 1) return;
    const sideways = Math.hypot(middle(grid.wallsX, i) - x / 100, middle(grid.wallsY, j) - y / 100);
    reached.push({ cell, way: middle(grid.wallsZ, k) + SIDEWAYS * Math.max(0, sideways - COLUMN_m) });
  });
  reached.sort((one, other) => one.way - other.way || one.cell - other.cell);
  let litres = 0;
  const litresOf = reached.map(({ cell }) => {
    litres += (grid.volume[cell] as number) * 1000 * TAKEN_UP;
    return litres;
  });
  return { cells: Int32Array.from(reached.map(({ cell }) => cell)), litres: Float64Array.from(litresOf) };
}

/** Water that has come in by a day, litres. */
export const leaked_L = (
  { startDay, litres_per_day }: Pick<Leak, 'startDay' | 'litres_per_day'>,
  day: number,
): number => Math.max(0, day - startDay) * litres_per_day;
