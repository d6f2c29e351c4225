/**
 * Water that creeps in from the floor and the walls: sand near them becomes damp first, the rest little by little.
 *
 * Behind the front the sand becomes damper over a stretch of its own, so that no place turns from dry to damp within
 * hours. Judgement: nobody has measured it in a sand store.
 */
import { type Block, blocksOf } from '../services/core/model/bed.js';
import { eachCell, type Grid, middle } from './grid.js';
import type { SimulatedBed } from './scenario.js';

/** Water that damp sand holds once the front is long past, m3/m3: 3 to 4 % by mass, as sand that has drained (computed). */
export const DAMP_WATER = 0.06;

/** From so much on the air between the grains is saturated, m3/m3: 0.5 % by mass (computed from films on grains). */
export const SATURATES_WATER = 0.008;

/** Part of the bed's sand between the driest and the dampest of the front. */
const FRONT_SHARE = 0.3;

/** How many times harder the way from a wall is than the way up from the floor. Judgement. */
const FROM_WALL = 1.6;

export interface DampingOrder {
  readonly cells: Int32Array;
  /** Sand that becomes damp sooner than the cell, litres. */
  readonly sooner_L: Float64Array;
  readonly all_L: number;
}

/** The cells of the bed in the order in which they become damp. */
export function dampingOrder(grid: Grid, bed: SimulatedBed, inBed: Uint8Array): DampingOrder {
  const blocks = blocksOf(bed.steps);
  const order: { cell: number; way: number }[] = [];
  eachCell(grid, (cell, i, j, k) => {
    if (inBed[cell] !== 1) return;
    const [x, y, z] = [middle(grid.wallsX, i), middle(grid.wallsY, j), middle(grid.wallsZ, k)];
    order.push({ cell, way: wayTo(blocks, x * 100, y * 100, z * 100) });
  });
  order.sort((one, other) => one.way - other.way || one.cell - other.cell);
  let sum_L = 0;
  const sooner_L = order.map(({ cell }) => {
    const sooner = sum_L;
    sum_L += 1000 * (grid.volume[cell] as number);
    return sooner;
  });
  return {
    cells: Int32Array.from(order.map(({ cell }) => cell)),
    sooner_L: Float64Array.from(sooner_L),
    all_L: sum_L,
  };
}

/** From the floor under a place or from the nearest wall beside it, cm. */
function wayTo(blocks: readonly Block[], x: number, y: number, depth: number): number {
  const under = blocks.filter(
    ({ left, right, near, far }) => x >= left && x <= right && y >= near && y <= far,
  );
  const floor = Math.max(...under.map(({ bottom }) => bottom)) - depth;
  const beside = under.find(({ top, bottom }) => depth >= top && depth <= bottom) ?? under[0];
  if (!beside) return Number.POSITIVE_INFINITY;
  const wall = Math.min(x - beside.left, beside.right - x, y - beside.near, beside.far - y);
  return Math.min(floor, FROM_WALL * wall);
}

/**
 * How far the front has come, litres of sand, once so much water is in: the sand behind it holds just that water.
 *
 * Dampness of a cell is the front less the sand that became damp sooner, as a share of the front's own stretch, from
 * 0 to 1. Past the last cell the water no longer adds up; by then everything is damp.
 */
export function front_L(water_L: number, all_L: number): number {
  const stretch_L = FRONT_SHARE * all_L;
  const soaked_L = water_L / DAMP_WATER;
  return soaked_L < stretch_L / 2 ? Math.sqrt(2 * stretch_L * soaked_L) : soaked_L + stretch_L / 2;
}

export const dampness = (front: number, sooner_L: number, all_L: number): number =>
  Math.min(1, Math.max(0, (front - sooner_L) / (FRONT_SHARE * all_L)));
