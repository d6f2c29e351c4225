/**
 * What a growing source of heat somewhere in a bed would add at each probe.
 *
 * Heat conduction in the block is symmetric: what a source at a place adds at a probe is what the same source at the
 * probe would add at the place. So one run for each probe answers for every place. What it adds is written as a sum
 * of a few shapes over time, the same for all places, so that evidence gathered for the shapes can be read for any
 * place.
 */
import { blocksOf, holdsPoint } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import { steadySourceRise_C } from '../../physics/index.js';
import { STEP_h, stepMean } from './curve.js';
import { type Grid, gridOf, sharesAt } from './grid.js';
import { SAND_WITH_ROOTS } from './nominal.js';
import { type Point, readOff } from './responses.js';
import { dot, invert } from './small-matrix.js';
import { Stepping } from './stepping.js';

/** Distances that give the shapes, m. */
const SHAPE_DISTANCES_m = [0.06, 0.15, 0.25, 0.38] as const;
export const SHAPES = SHAPE_DISTANCES_m.length;

/** Time in which a source grows to 63 % of its strength, h: between the 2 and 8 days of a rotting cluster. Judgement. */
const GROWTH_h = 84;

/** A cluster's share of its full strength some hours after it began. */
export const grown = (hours: number, growth_h = GROWTH_h): number =>
  hours > 0 ? 1 - Math.exp(-((hours / growth_h) ** 2)) : 0;

/** How long sources are followed, in steps; later they are taken for level. */
export const FOLLOWED_steps = 30 * 4;

/** Steps between two looks at the block while a source in it is followed. */
const EVERY_steps = 2;

/** Spacing of the places that are tried, cm. */
const SPACING_cm = 9;
const FROM_WALL_cm = 3;

export interface Place3 extends Point {
  /** By probe and shape: °C for each W, at the row `probe * SHAPES + shape`. */
  readonly weights: Float64Array;
}

export interface Sources {
  /** By shape: what it adds in each step after the beginning. */
  readonly shapes: readonly Float64Array[];
  readonly places: readonly Place3[];
}

function along(from: number, to: number): number[] {
  const [low, high] = [from + FROM_WALL_cm, to - FROM_WALL_cm];
  const parts = Math.max(1, Math.round((high - low) / SPACING_cm));
  return Array.from({ length: parts + 1 }, (_, part) => low + ((high - low) * part) / parts);
}

/** Points all over the sand, cm. */
export function placesIn(bed: Pick<Bed, 'steps'>): Point[] {
  const blocks = blocksOf(bed.steps);
  return blocks
    .flatMap((block) =>
      along(block.top, block.bottom).flatMap((depth) =>
        along(block.near, block.far).flatMap((y) =>
          along(block.left, block.right).map((x) => ({ x, y, depth })),
        ),
      ),
    )
    .filter(({ x, y, depth }) => holdsPoint(blocks, x, y, depth));
}

const MEDIUM = {
  conductivity_W_mK: SAND_WITH_ROOTS.conductivity,
  diffusivity_m2_s: SAND_WITH_ROOTS.conductivity / SAND_WITH_ROOTS.capacity,
};

/** A source's growth is taken in parts of half a step, each as if it came all at once in its middle. */
const PARTS = 2;
const PART_h = STEP_h / PARTS;

interface Growing {
  readonly growth_h?: number;
  /** How many times more than nominal sand it spreads heat. */
  readonly faster?: number;
}

/** A source of 1 W at a distance in endless sand, grown as `grown` says, °C. */
function shapeAt(distance_m: number, { growth_h, faster = 1 }: Growing): Float64Array {
  const growing = Float64Array.from(
    { length: FOLLOWED_steps * PARTS },
    (_, part) => grown((part + 1) * PART_h, growth_h) - grown(part * PART_h, growth_h),
  );
  const rise = (hours: number): number => steadySourceRise_C(1, MEDIUM, distance_m, faster * hours * 3600);
  // What a part adds to a step's mean, by how many parts before the step's last it came.
  const means = Float64Array.from({ length: FOLLOWED_steps * PARTS }, (_, parts) =>
    stepMean((hours) => rise((parts - PARTS + 0.5) * PART_h + hours), 0),
  );
  return new Float64Array(FOLLOWED_steps).map((_, step) => {
    const last = (step + 1) * PARTS - 1;
    let sum = 0;
    for (let part = 0; part <= last; part += 1)
      sum += (growing[part] as number) * (means[last - part] as number);
    return sum;
  });
}

/** The shapes, by step, as a source that grows in some time would have them. */
export const shapesOf = (growing: Growing = {}): Float64Array[] =>
  SHAPE_DISTANCES_m.map((distance_m) => shapeAt(distance_m, growing));

const followed = (): number => Math.floor(FOLLOWED_steps / EVERY_steps);

/** The block's answer to a growing source of 1 W at a point, at every second step: fields one after the other. */
function fieldsOf(grid: Grid, stepping: Stepping, { x, y, depth }: Point): Float64Array[] {
  const field = new Float64Array(grid.count);
  const source_W = new Float64Array(grid.count);
  const { cells, shares } = sharesAt(grid, x / 100, y / 100, depth / 100);
  const fields: Float64Array[] = [];
  for (let look = 0; look < followed(); look += 1) {
    const middle_h = (look + 0.5) * EVERY_steps * STEP_h;
    cells.forEach((cell, index) => {
      source_W[cell] = grown(middle_h) * (shares[index] as number);
    });
    stepping.advance(field, EVERY_steps * STEP_h * 3600, { outer_C: [0, 0, 0], source_W });
    fields.push(field.slice());
  }
  return fields;
}

/** Least squares of curves on the shapes: for a curve's values at the looks, the shapes' weights. */
function fitter(
  shapes: readonly Float64Array[],
): (values: readonly number[], into: Float64Array, at: number) => void {
  const looks = Array.from({ length: followed() }, (_, look) => (look + 1) * EVERY_steps);
  const at = (shape: Float64Array, step: number): number =>
    step < FOLLOWED_steps
      ? ((shape[step - 1] as number) + (shape[step] as number)) / 2
      : (shape.at(-1) as number);
  const basis = shapes.map((shape) => looks.map((step) => at(shape, step)));
  const gram = basis.map((one) => basis.map((other) => dot(one, other)));
  gram.forEach((row, index) => {
    row[index] = (row[index] as number) * (1 + 1e-4);
  });
  const inverse = invert(gram);
  return (values, into, offset) => {
    const right = basis.map((one) => dot(one, values));
    inverse.forEach((row, index) => {
      into[offset + index] = dot(row, right);
    });
  };
}

export function sourcesOf(bed: Pick<Bed, 'kind' | 'steps'>, probes: readonly Point[]): Sources {
  const grid = gridOf(bed);
  const stepping = new Stepping(grid);
  const shapes = shapesOf();
  const onShapes = fitter(shapes);
  const places = placesIn(bed).map((point) => ({
    ...point,
    weights: new Float64Array(probes.length * SHAPES),
  }));
  const readers = places.map(({ x, y, depth }) => sharesAt(grid, x / 100, y / 100, depth / 100));
  probes.forEach((probe, index) => {
    const fields = fieldsOf(grid, stepping, probe);
    places.forEach(({ weights }, at) => {
      const reader = readers[at];
      if (reader)
        onShapes(
          fields.map((field) => readOff(reader, field)),
          weights,
          index * SHAPES,
        );
    });
  });
  return { shapes, places };
}
