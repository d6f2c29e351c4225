/**
 * A block of which one half mirrors the other, along its length or its width, as that half: what drives both halves
 * alike makes both alike, and nothing flows from one to the other.
 */
import { forEachCell, type Grid, type Shares } from './grid.js';

export interface Folded {
  readonly grid: Grid;
  /** Shares of the whole block's cells as shares of this one's. */
  sharesOf(shares: Shares): Shares;
}

/** Walls and cells further off than this do not mirror each other, m. */
const SAME_m = 1e-9;

/** Cells that are kept along an axis: to the middle, where it mirrors itself; the cell in the middle by half. */
interface Kept {
  readonly count: number;
  readonly shareOf: (index: number) => number;
  readonly mirrored: (index: number) => number;
}

function keptAlong(walls: readonly number[], mirrors: boolean): Kept {
  const cells = walls.length - 1;
  const width = (index: number): number => (walls[index + 1] as number) - (walls[index] as number);
  const isEven = walls.slice(1).every((_, at) => Math.abs(width(at) - width(cells - 1 - at)) < SAME_m);
  if (!mirrors || !isEven) return { count: cells, shareOf: () => 1, mirrored: (index) => index };
  const count = Math.ceil(cells / 2);
  return {
    count,
    shareOf: (index) => (2 * index === cells - 1 ? 0.5 : 1),
    mirrored: (index) => Math.min(index, cells - 1 - index),
  };
}

/** The block by half or by a quarter; as it is where it does not mirror itself. */
export function folded(grid: Grid): Folded {
  const [nx, ny, nz] = [grid.x.length - 1, grid.y.length - 1, grid.z.length - 1];
  const cellAt = (i: number, j: number, k: number): number => (k * ny + j) * nx + i;
  let [alongX, alongY] = [true, true];
  forEachCell(grid, (cell, i, j, k) => {
    alongX &&= grid.inBed[cell] === grid.inBed[cellAt(nx - 1 - i, j, k)];
    alongY &&= grid.inBed[cell] === grid.inBed[cellAt(i, ny - 1 - j, k)];
  });
  const [x, y] = [keptAlong(grid.x, alongX), keptAlong(grid.y, alongY)];
  const count = x.count * y.count * nz;
  const walls = { x: grid.x.slice(0, x.count + 1), y: grid.y.slice(0, y.count + 1), z: grid.z };
  const from = new Int32Array(count);
  const [inX, inY] = [new Float64Array(count), new Float64Array(count)];
  forEachCell(walls, (cell, i, j, k) => {
    from[cell] = cellAt(i, j, k);
    inX[cell] = x.shareOf(i);
    inY[cell] = y.shareOf(j);
  });
  const of = (values: Float64Array, share: (cell: number) => number): Float64Array =>
    Float64Array.from(from, (there, cell) => (values[there] as number) * share(cell));
  const byX = (cell: number): number => inX[cell] as number;
  const byY = (cell: number): number => inY[cell] as number;
  const byBoth = (cell: number): number => byX(cell) * byY(cell);
  const isLastX = (cell: number): boolean => (cell + 1) % x.count === 0;
  const isLastY = (cell: number): boolean => (Math.floor(cell / x.count) + 1) % y.count === 0;
  const toOuter = grid.toOuter.map((to) => of(to, byBoth)) as unknown as Grid['toOuter'];
  return {
    grid: {
      ...{ ...walls, count, toOuter },
      inBed: Uint8Array.from(from, (there) => grid.inBed[there] as number),
      volume_m3: of(grid.volume_m3, byBoth),
      capacity: of(grid.capacity, byBoth),
      toX: of(grid.toX, (cell) => (isLastX(cell) ? 0 : byY(cell))),
      toY: of(grid.toY, (cell) => (isLastY(cell) ? 0 : byX(cell))),
      toZ: of(grid.toZ, byBoth),
    },
    sharesOf: ({ cells, shares }) => ({
      shares,
      cells: cells.map((cell) => {
        const [i, j, k] = [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
        return (k * y.count + y.mirrored(j)) * x.count + x.mirrored(i);
      }),
    }),
  };
}
