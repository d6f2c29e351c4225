/** A cluster of rotting roots: heat at a place that grows with time. */
import { eachCell, type Grid, middle } from './grid.js';
import { closedAt } from './openings.js';
import type { SimulatedBed } from './scenario.js';

export interface Rot {
  readonly startDay: number;
  /** Centimetres from the north-west corner of the opening, depth from the top of the sand. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Heat of the whole cluster once it is grown, W. One to two kilograms rotting give about 1 W (judgement). */
  readonly grown_W: number;
  /** Days until 63 % of it. */
  readonly growth_days: number;
}

/** How far a cluster spreads around its middle, m: standard deviation along each axis. */
const SPREAD_m = 0.06;

/** Heat of the cluster, W: nothing before it starts, slow at first, bounded. */
export function rot_W({ startDay, grown_W, growth_days }: Rot, day: number): number {
  return day <= startDay ? 0 : grown_W * (1 - Math.exp(-(((day - startDay) / growth_days) ** 2)));
}

/** Share of the cluster's heat in each cell; the shares add up to 1. */
export function rotShares(grid: Grid, { x, y, depth }: Rot): Float64Array {
  const shares = new Float64Array(grid.count);
  let sum = 0;
  eachCell(grid, (cell, i, j, k) => {
    const distance2 =
      (middle(grid.wallsX, i) - x / 100) ** 2 +
      (middle(grid.wallsY, j) - y / 100) ** 2 +
      (middle(grid.wallsZ, k) - depth / 100) ** 2;
    const share = Math.exp(-distance2 / (2 * SPREAD_m ** 2)) * (grid.volume[cell] as number);
    shares[cell] = share;
    sum += share;
  });
  return shares.map((share) => share / sum);
}

/** The clusters of a bed, each with the day on which it is taken out by a repacking that reaches it; infinite for never. */
export const rotsUntil = ({ rots, openings }: SimulatedBed): { rot: Rot; endDay: number }[] =>
  rots.map((rot) => {
    const repacking = openings.find(
      ({ repacked, day, depth }) => repacked && day > rot.startDay && depth >= rot.depth,
    );
    return { rot, endDay: repacking ? closedAt(repacking) : Number.POSITIVE_INFINITY };
  });
