/** A block of space cut into cells by planes across x, y and depth. All lengths in metres. */
import { SandlarderError } from '../services/core/errors.js';

export interface Grid {
  /** Cell walls along each axis, ascending; one more than there are cells. */
  readonly wallsX: Float64Array;
  readonly wallsY: Float64Array;
  readonly wallsZ: Float64Array;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly count: number;
  /** Volume of each cell, m3. */
  readonly volume: Float64Array;
}

/** Index of a cell; x runs fastest. */
export const cellAt = ({ nx, ny }: Grid, i: number, j: number, k: number): number => i + nx * (j + ny * k);

/** Middle of a cell along one axis, m. */
export const middle = (walls: Float64Array, at: number): number =>
  ((walls[at] as number) + (walls[at + 1] as number)) / 2;

/** Width of a cell along one axis, m. */
export const width = (walls: Float64Array, at: number): number =>
  (walls[at + 1] as number) - (walls[at] as number);

/**
 * Walls with even steps inside a span and growing ones outside it: what is far from the bed needs less detail.
 *
 * @param step_m about the width of a cell inside the span
 * @param outside_m how far the walls go beyond the span on each side: [before, after]
 * @throws SandlarderError OUT_OF_DOMAIN for a span or a step of no width
 */
export function wallsAround(
  from_m: number,
  to_m: number,
  step_m: number,
  outside_m: readonly [number, number],
): Float64Array {
  if (!(to_m > from_m && step_m > 0))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `expected a span and a step of some width, got ${from_m} to ${to_m} m by ${step_m} m`,
    );
  const inside = Math.max(1, Math.round((to_m - from_m) / step_m));
  const even = Array.from({ length: inside + 1 }, (_, at) => from_m + ((to_m - from_m) * at) / inside);
  const first = (to_m - from_m) / inside;
  const before = growing(first, outside_m[0]).map((distance) => from_m - distance);
  const after = growing(first, outside_m[1]).map((distance) => to_m + distance);
  return Float64Array.from([...before.reverse(), ...even, ...after]);
}

/** Each cell outside is so many times as wide as the one before. */
const GROWTH = 1.4;

function growing(first_m: number, reach_m: number): number[] {
  const distances: number[] = [];
  let step = first_m;
  let distance = 0;
  while (distance < reach_m - 1e-9) {
    step *= GROWTH;
    const rest = reach_m - distance;
    distance += rest < 1.5 * step ? rest : step;
    distances.push(distance);
  }
  return distances;
}

/** @throws SandlarderError OUT_OF_DOMAIN where walls do not ascend */
export function makeGrid(wallsX: Float64Array, wallsY: Float64Array, wallsZ: Float64Array): Grid {
  for (const walls of [wallsX, wallsY, wallsZ])
    walls.forEach((wall, at) => {
      if (at > 0 && !(wall > (walls[at - 1] as number)))
        throw new SandlarderError(
          'OUT_OF_DOMAIN',
          `cell walls must ascend, got ${walls[at - 1]} before ${wall}`,
        );
    });
  const [nx, ny, nz] = [wallsX.length - 1, wallsY.length - 1, wallsZ.length - 1];
  const grid = {
    wallsX,
    wallsY,
    wallsZ,
    nx,
    ny,
    nz,
    count: nx * ny * nz,
    volume: new Float64Array(nx * ny * nz),
  };
  eachCell(grid, (cell, i, j, k) => {
    grid.volume[cell] = width(wallsX, i) * width(wallsY, j) * width(wallsZ, k);
  });
  return grid;
}

export function eachCell(grid: Grid, visit: (cell: number, i: number, j: number, k: number) => void): void {
  let cell = 0;
  for (let k = 0; k < grid.nz; k += 1)
    for (let j = 0; j < grid.ny; j += 1)
      for (let i = 0; i < grid.nx; i += 1) {
        visit(cell, i, j, k);
        cell += 1;
      }
}

/** Cells and weights that give a value at a point: trilinear between cell middles, level beyond the outermost. */
export function interpolation(
  grid: Grid,
  x: number,
  y: number,
  z: number,
): { cell: number; weight: number }[] {
  const [alongX, alongY, alongZ] = [
    between(grid.wallsX, x),
    between(grid.wallsY, y),
    between(grid.wallsZ, z),
  ];
  return alongX.flatMap(([i, u]) =>
    alongY.flatMap(([j, v]) => alongZ.map(([k, w]) => ({ cell: cellAt(grid, i, j, k), weight: u * v * w }))),
  );
}

function between(walls: Float64Array, at: number): [index: number, weight: number][] {
  const last = walls.length - 2;
  let lower = 0;
  while (lower < last && middle(walls, lower + 1) <= at) lower += 1;
  if (lower === last || at <= middle(walls, 0)) return [[at <= middle(walls, 0) ? 0 : last, 1]];
  const low = middle(walls, lower);
  const share = (at - low) / (middle(walls, lower + 1) - low);
  return [
    [lower, 1 - share],
    [lower + 1, share],
  ];
}
