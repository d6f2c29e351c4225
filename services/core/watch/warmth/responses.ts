/**
 * How each probe of a bed would answer to what drives the bed, for nominal properties: by stepping the block once
 * for each drive and reading it off at the probes.
 */
import type { Bed } from '../../model/site.js';
import { Curve, KNOTS_h } from './curve.js';
import { folded } from './folding.js';
import { forEachCell, type Grid, gridOf, middleOf, type Shares, sharesAt } from './grid.js';
import { Stepping } from './stepping.js';

/**
 * What drives a bed, each by one unit from the beginning on.
 *
 * - `surface`: the air over the sand 1 °C; of a box, all the air around it
 * - `open`: the open ground around a pit 1 °C
 * - `ground`: the ground 1 °C when the bed was filled, and for good at the bottom
 * - `deep`: the same growing downwards from 0 at the top to 1 °C at the bottom
 * - `upper`, `lower`: the upper and the lower half of the sand 1 °C when it was filled
 * - `roots`: 1 W in each cubic metre of the bed; `rootsX`, `rootsY`, `rootsZ`: as much more or less at its ends
 * - `rootsWarm`: by as much more or less than 1 W in each cubic metre as roots make it warmer or cooler there than at
 *   the probes: roots respire more where it is warm
 */
export const DRIVES = [
  'surface',
  'open',
  'ground',
  'deep',
  'upper',
  'lower',
  'roots',
  'rootsX',
  'rootsY',
  'rootsZ',
  'rootsWarm',
] as const;
export type DriveName = (typeof DRIVES)[number];

/** How it is where the ground conducts so much better, for the drives that notice. */
const BETTER_GROUND = 1.3;
export const GROUND_DRIVES = ['surface', 'open', 'ground', 'deep', 'roots'] as const;

/** A point of the bed, cm. */
export interface Point {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/** Value at a probe, and change of it by each centimetre along x, y and depth. */
export interface AtProbe {
  readonly value: Curve;
  readonly x: Curve;
  readonly y: Curve;
  readonly depth: Curve;
}

export interface Responses {
  /** By drive, then by probe. */
  readonly drives: Readonly<Record<DriveName, readonly AtProbe[]>>;
  /** Change for each unit of the logarithm of the ground's conductivity. */
  readonly ground: Readonly<Partial<Record<DriveName, readonly Curve[]>>>;
}

const APART_cm = 3;

interface Reader {
  readonly shares: readonly Shares[];
}

/** A block that is stepped and read off. */
interface Block {
  readonly grid: Grid;
  readonly stepping: Stepping;
  readonly readers: readonly Reader[];
}

/** Drives that are not the same in both halves of a block that mirrors itself. */
const UNEVEN: readonly DriveName[] = ['rootsX', 'rootsY'];

/** The block as a whole, and as much of it as is its own mirror image. */
function blocksOver(grid: Grid, readers: readonly Reader[]): { whole: Block; part: Block } {
  const half = folded(grid);
  return {
    whole: { grid, readers, stepping: new Stepping(grid) },
    part: {
      grid: half.grid,
      readers: readers.map(({ shares }) => ({ shares: shares.map(half.sharesOf) })),
      stepping: new Stepping(half.grid, grid),
    },
  };
}

function readersAt(grid: Grid, points: readonly Point[]): Reader[] {
  const at = (x: number, y: number, depth: number): Shares => sharesAt(grid, x / 100, y / 100, depth / 100);
  return points.map(({ x, y, depth }) => ({
    shares: [
      at(x, y, depth),
      at(x - APART_cm, y, depth),
      at(x + APART_cm, y, depth),
      at(x, y - APART_cm, depth),
      at(x, y + APART_cm, depth),
      at(x, y, depth - APART_cm),
      at(x, y, depth + APART_cm),
    ],
  }));
}

export function readOff({ cells, shares }: Shares, field: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < cells.length; index += 1)
    sum += (shares[index] as number) * (field[cells[index] as number] as number);
  return sum;
}

/** Steps a field through the knots; `read` is called at each. */
function through(
  stepping: Stepping,
  field: Float64Array,
  drive: { outer_C: readonly [number, number, number]; source_W?: Float64Array },
  read: (knot: number) => void,
): void {
  read(0);
  for (let knot = 1; knot < KNOTS_h.length; knot += 1) {
    stepping.advance(field, ((KNOTS_h[knot] as number) - (KNOTS_h[knot - 1] as number)) * 3600, drive);
    read(knot);
  }
}

interface Begun {
  readonly field: Float64Array;
  readonly outer_C: readonly [number, number, number];
  readonly source_W?: Float64Array;
}

/** The block at the beginning of a drive. */
function beginningOf(grid: Grid, drive: DriveName, pattern?: Float64Array): Begun {
  const field = new Float64Array(grid.count);
  const outer: [number, number, number] = [0, 0, 0];
  const source_W = drive.startsWith('roots') ? new Float64Array(grid.count) : undefined;
  const bounds = boundsOf(grid);
  const depth = grid.z.at(-1) as number;
  if (drive === 'surface') outer[0] = 1;
  if (drive === 'open') outer[1] = 1;
  if (drive === 'ground' || drive === 'deep') outer[2] = 1;
  forEachCell(grid, (cell, i, j, k) => {
    const [x, y, z] = middleOf(grid, i, j, k);
    const inBed = grid.inBed[cell] === 1;
    const lower = z > (bounds.top + bounds.bottom) / 2;
    if (drive === 'ground' && !inBed) field[cell] = 1;
    if (drive === 'deep' && !inBed) field[cell] = z / depth;
    if (drive === 'upper' && inBed && !lower) field[cell] = 1;
    if (drive === 'lower' && inBed && lower) field[cell] = 1;
    if (!source_W || !inBed) return;
    const along = (at: number, from: number, to: number): number => (2 * (at - from)) / (to - from) - 1;
    const share = {
      roots: 1,
      rootsX: along(x, bounds.left, bounds.right),
      rootsY: along(y, bounds.near, bounds.far),
      rootsZ: along(z, bounds.top, bounds.bottom),
      rootsWarm: pattern?.[cell] ?? 0,
    }[drive as 'roots'];
    source_W[cell] = share * (grid.volume_m3[cell] as number);
  });
  return { field, outer_C: outer, ...(source_W && { source_W }) };
}

interface Bounds {
  left: number;
  right: number;
  near: number;
  far: number;
  top: number;
  bottom: number;
}

/** The box around the sand, m. */
export function boundsOf(grid: Grid): Bounds {
  const bounds: Bounds = {
    left: Infinity,
    right: -Infinity,
    near: Infinity,
    far: -Infinity,
    top: Infinity,
    bottom: -Infinity,
  };
  forEachCell(grid, (cell, i, j, k) => {
    if (grid.inBed[cell] !== 1) return;
    bounds.left = Math.min(bounds.left, grid.x[i] as number);
    bounds.right = Math.max(bounds.right, grid.x[i + 1] as number);
    bounds.near = Math.min(bounds.near, grid.y[j] as number);
    bounds.far = Math.max(bounds.far, grid.y[j + 1] as number);
    bounds.top = Math.min(bounds.top, grid.z[k] as number);
    bounds.bottom = Math.max(bounds.bottom, grid.z[k + 1] as number);
  });
  return bounds;
}

/** Values at the middle of each probe's readers, by knot. */
function valuesOf(
  { grid, stepping, readers }: Block,
  drive: DriveName,
  begun: Begun = beginningOf(grid, drive),
): Float64Array[][] {
  const values = readers.map(({ shares }) => shares.map(() => new Float64Array(KNOTS_h.length)));
  through(stepping, begun.field, begun, (knot) => {
    readers.forEach(({ shares }, probe) => {
      shares.forEach((share, at) => {
        (values[probe]?.[at] as Float64Array)[knot] = readOff(share, begun.field);
      });
    });
  });
  return values;
}

function atProbe(values: readonly Float64Array[]): AtProbe {
  const between = (low: number, high: number): Curve =>
    new Curve(
      (values[high] as Float64Array).map(
        (value, knot) => (value - ((values[low] as Float64Array)[knot] as number)) / (2 * APART_cm),
      ),
    );
  return {
    value: new Curve(values[0] as Float64Array),
    x: between(1, 2),
    y: between(3, 4),
    depth: between(5, 6),
  };
}

/** How much warmer or cooler roots make the block than at the middle one of the probes, as a share of that. */
function patternOf(settled: Float64Array, readers: readonly Reader[]): Float64Array {
  const atProbes = readers
    .map(({ shares }) => readOff(shares[0] as Shares, settled))
    .sort((one, other) => one - other);
  const usual = atProbes[Math.floor(atProbes.length / 2)] as number;
  return settled.map((value) => value / usual - 1);
}

/** Change for each unit of the logarithm of what was made `BETTER_GROUND` times better. */
const perLogarithm = (usual: Float64Array, better: Float64Array): Curve =>
  new Curve(better.map((value, knot) => (value - (usual[knot] as number)) / Math.log(BETTER_GROUND)));

export function responsesOf(bed: Pick<Bed, 'kind' | 'steps'>, points: readonly Point[]): Responses {
  const grid = gridOf(bed);
  const readers = readersAt(grid, points);
  const { whole, part } = blocksOver(grid, readers);
  const roots = beginningOf(part.grid, 'roots');
  const raw = Object.fromEntries(
    DRIVES.filter((drive) => drive !== 'rootsWarm').map((drive) => [
      drive,
      valuesOf(UNEVEN.includes(drive) ? whole : part, drive, drive === 'roots' ? roots : undefined),
    ]),
  ) as Record<DriveName, Float64Array[][]>;
  const pattern = patternOf(roots.field, part.readers);
  raw.rootsWarm = valuesOf(part, 'rootsWarm', beginningOf(part.grid, 'rootsWarm', pattern));
  const drives = Object.fromEntries(
    DRIVES.map((drive) => [drive, raw[drive].map(atProbe)]),
  ) as unknown as Record<DriveName, AtProbe[]>;
  const middles = readers.map(({ shares }) => ({ shares: shares.slice(0, 1) }));
  const other = blocksOver(gridOf(bed, BETTER_GROUND), middles).part;
  const ground = Object.fromEntries(
    GROUND_DRIVES.map((drive) => [
      drive,
      valuesOf(other, drive).map(([better], probe) =>
        perLogarithm(raw[drive][probe]?.[0] as Float64Array, better as Float64Array),
      ),
    ]),
  );
  return { drives, ground };
}
