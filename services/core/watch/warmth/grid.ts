/**
 * A bed and the ground around it as coarse blocks, for the responses of its probes.
 *
 * Lengths m, conductances W/K, capacities J/K. Coordinates as in the site description: x along the length, y along
 * the width, z down, from the north-west corner of the opening.
 */
import { type Block, blocksOf } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import {
  BOARD_W_m2K,
  BOTTOM_m,
  CELL_m,
  GROUND,
  LAYER_m,
  MARGIN_m,
  OPEN_AIR_W_m2K,
  SAND_WITH_ROOTS,
  STILL_AIR_W_m2K,
} from './nominal.js';

/** What a face of the block touches: inputs of the model. */
export const OUTER = { surface: 0, open: 1, deep: 2 } as const;

export interface Grid {
  /** Walls of the cells along each axis, ascending, m. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
  readonly count: number;
  /** 1 for a cell of sand with roots, 0 for ground. */
  readonly inBed: Uint8Array;
  readonly volume_m3: Float64Array;
  readonly capacity: Float64Array;
  /** Conductance to the next cell along x, y and z; 0 where there is none. */
  readonly toX: Float64Array;
  readonly toY: Float64Array;
  readonly toZ: Float64Array;
  /** Conductance to each of `OUTER`. */
  readonly toOuter: readonly [Float64Array, Float64Array, Float64Array];
}

/** Cells no longer than `longest` between one edge and the next. */
function subdivide(edges: readonly number[], longest: number): number[] {
  const walls = [edges[0] as number];
  for (let index = 1; index < edges.length; index += 1) {
    const [from, to] = [edges[index - 1] as number, edges[index] as number];
    const parts = Math.max(1, Math.round((to - from) / longest));
    for (let part = 1; part <= parts; part += 1) walls.push(from + ((to - from) * part) / parts);
  }
  return walls;
}

const distinct = (values: readonly number[]): number[] =>
  [...new Set(values.map((value) => Math.round(value * 1000) / 1000))].sort((one, other) => one - other);

const outward = (from: number, widths: readonly number[], sign: number): number[] =>
  widths.map((_, index) => from + sign * widths.slice(0, index + 1).reduce((sum, width) => sum + width, 0));

function axis(
  edges: readonly number[],
  longest: number,
  before: readonly number[],
  after: readonly number[],
): number[] {
  const inner = subdivide(distinct(edges), longest);
  return [
    ...outward(inner[0] as number, before, -1).reverse(),
    ...inner,
    ...outward(inner.at(-1) as number, after, 1),
  ];
}

const middle = (walls: readonly number[], index: number): number =>
  ((walls[index] as number) + (walls[index + 1] as number)) / 2;
const width = (walls: readonly number[], index: number): number =>
  (walls[index + 1] as number) - (walls[index] as number);

interface Material {
  readonly conductivity: number;
  readonly capacity: number;
}

/**
 * @param bed its shape; a box stands free, a pit lies in ground
 * @param better how many times more than usual what is around the sand conducts: the ground, or the boards
 */
export function gridOf(bed: Pick<Bed, 'kind' | 'steps'>, better = 1): Grid {
  const blocks = blocksOf(bed.steps).map(inMetres);
  const pit = bed.kind !== 'box';
  const margin = pit ? MARGIN_m : [];
  const x = axis(
    blocks.flatMap(({ left, right }) => [left, right]),
    CELL_m,
    margin,
    margin,
  );
  const y = axis(
    blocks.flatMap(({ near, far }) => [near, far]),
    CELL_m,
    margin,
    margin,
  );
  const z = axis(
    blocks.flatMap(({ top, bottom }) => [top, bottom]),
    LAYER_m,
    [],
    pit ? BOTTOM_m : [],
  );
  const ground: Material = { conductivity: better * GROUND.conductivity, capacity: GROUND.capacity };
  return build({ x, y, z }, blocks, pit, ground, better * BOARD_W_m2K);
}

function inMetres({ left, right, near, far, top, bottom }: Block): Block {
  const [a, b, c, d, e, f] = [left, right, near, far, top, bottom].map((value) => value / 100) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { left: a, right: b, near: c, far: d, top: e, bottom: f };
}

interface Walls {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
}

function build(
  { x, y, z }: Walls,
  blocks: readonly Block[],
  pit: boolean,
  ground: Material,
  boards_W_m2K: number,
): Grid {
  const [nx, ny, nz] = [x.length - 1, y.length - 1, z.length - 1];
  const count = nx * ny * nz;
  const array = (): Float64Array => new Float64Array(count);
  const grid = {
    ...{ x, y, z, count },
    ...{ inBed: new Uint8Array(count), volume_m3: array(), capacity: array() },
    ...{ toX: array(), toY: array(), toZ: array() },
    toOuter: [array(), array(), array()] as const,
  };
  const conductivity = array();
  forEachCell(grid, (cell, i, j, k) => {
    const inBed = blocks.some((block) => holds(block, middle(x, i), middle(y, j), middle(z, k)));
    const material = inBed ? SAND_WITH_ROOTS : ground;
    grid.inBed[cell] = inBed ? 1 : 0;
    grid.volume_m3[cell] = width(x, i) * width(y, j) * width(z, k);
    grid.capacity[cell] = material.capacity * (grid.volume_m3[cell] as number);
    conductivity[cell] = material.conductivity;
  });
  forEachCell(grid, (cell, i, j, k) => {
    const [dx, dy, dz] = [width(x, i), width(y, j), width(z, k)];
    const own = conductivity[cell] as number;
    const between = (next: number, area: number, half: number, otherHalf: number): number =>
      area / (half / own + otherHalf / (conductivity[next] as number));
    if (i + 1 < nx) grid.toX[cell] = between(cell + 1, dy * dz, dx / 2, width(x, i + 1) / 2);
    if (j + 1 < ny) grid.toY[cell] = between(cell + nx, dx * dz, dy / 2, width(y, j + 1) / 2);
    if (k + 1 < nz) grid.toZ[cell] = between(cell + nx * ny, dx * dy, dz / 2, width(z, k + 1) / 2);
    const add = (outer: 0 | 1 | 2, area: number, half: number, film: number): void => {
      const to = grid.toOuter[outer];
      to[cell] = (to[cell] as number) + area / (half / own + (film > 0 ? 1 / film : 0));
    };
    if (!pit) {
      for (const at of [i === 0, i === nx - 1]) if (at) add(0, dy * dz, dx / 2, boards_W_m2K);
      for (const at of [j === 0, j === ny - 1]) if (at) add(0, dx * dz, dy / 2, boards_W_m2K);
      if (k === 0) add(0, dx * dy, dz / 2, STILL_AIR_W_m2K);
      if (k === nz - 1) add(0, dx * dy, dz / 2, boards_W_m2K);
      return;
    }
    if (k === 0) {
      // The roof covers the opening and the first cells around it.
      const under = i > 1 && i < nx - 2 && j > 1 && j < ny - 2;
      if (under) add(OUTER.surface, dx * dy, dz / 2, STILL_AIR_W_m2K);
      else add(OUTER.open, dx * dy, dz / 2, OPEN_AIR_W_m2K);
    }
    if (k === nz - 1) add(OUTER.deep, dx * dy, dz / 2, 0);
  });
  return grid;
}

const holds = ({ left, right, near, far, top, bottom }: Block, x: number, y: number, z: number): boolean =>
  x > left && x < right && y > near && y < far && z > top && z < bottom;

export function forEachCell(
  { x, y, z }: Walls,
  visit: (cell: number, i: number, j: number, k: number) => void,
): void {
  const [nx, ny, nz] = [x.length - 1, y.length - 1, z.length - 1];
  for (let k = 0; k < nz; k += 1)
    for (let j = 0; j < ny; j += 1) for (let i = 0; i < nx; i += 1) visit((k * ny + j) * nx + i, i, j, k);
}

/** Middle of a cell, m. */
export const middleOf = (
  { x, y, z }: Walls,
  i: number,
  j: number,
  k: number,
): readonly [number, number, number] => [middle(x, i), middle(y, j), middle(z, k)];

/** Cells around a point and their shares (trilinear between middles, level beyond the outermost). */
export interface Shares {
  readonly cells: Int32Array;
  readonly shares: Float64Array;
}

function alongAxis(walls: readonly number[], at: number): readonly [index: number, share: number][] {
  const last = walls.length - 2;
  let index = 0;
  while (index < last && middle(walls, index + 1) <= at) index += 1;
  if (index === last || at <= middle(walls, 0)) return [[index, 1]];
  const share = (at - middle(walls, index)) / (middle(walls, index + 1) - middle(walls, index));
  return [
    [index, 1 - share],
    [index + 1, share],
  ];
}

export function sharesAt(walls: Walls, x: number, y: number, z: number): Shares {
  const [nx, ny] = [walls.x.length - 1, walls.y.length - 1];
  const cells: number[] = [];
  const shares: number[] = [];
  for (const [k, inZ] of alongAxis(walls.z, z))
    for (const [j, inY] of alongAxis(walls.y, y))
      for (const [i, inX] of alongAxis(walls.x, x)) {
        cells.push((k * ny + j) * nx + i);
        shares.push(inX * inY * inZ);
      }
  return { cells: Int32Array.from(cells), shares: Float64Array.from(shares) };
}
