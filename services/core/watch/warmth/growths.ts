/**
 * Sources that grow faster or slower than the bank's, in sand that spreads heat otherwise, as sums of the bank's shapes.
 *
 * What a source at a place adds at a probe is a sum of the shapes. Conduction is linear: a source there that grows in
 * another time adds the same sum of the shapes of that growth, and each of those is nearly a sum of the bank's again. So
 * evidence that was gathered for one growth can be read for others. A slow source near a probe looks like a fast one
 * further away: whoever asks where it is must ask for all of them.
 */
import type { Reading } from './search.js';
import { dot, invert } from './small-matrix.js';
import { SHAPES, shapesOf } from './sources.js';

/** Times of growth, h: the 2 to 8 days of a rotting cluster and a little around them. Judgement. */
const GROWTHS_h = [36, 60, 84, 130, 190] as const;
/** How many times more than nominal sand it spreads heat: as uncertain as `faster` of the filter. Judgement. */
const FASTER = [0.75, 1, 1.33] as const;

/** Steps over which shapes are compared: beginnings are hardly kept for longer. */
const COMPARED_steps = 20 * 4;
/** Keeps shapes that resemble each other from cancelling, as a share. */
const RIDGE = 1e-5;

/** By the bank's shape, then by the other source's: what is to be taken of the one for the other. */
type Mixture = readonly (readonly number[])[];

const compared = (shapes: readonly Float64Array[]): number[][] =>
  shapes.map((shape) => [...shape.subarray(0, COMPARED_steps)]);

function mixturesOf(): Mixture[] {
  const own = compared(shapesOf());
  const inverse = invert(
    own.map((one, row) => own.map((other, column) => dot(one, other) * (row === column ? 1 + RIDGE : 1))),
  );
  return FASTER.flatMap((faster) =>
    GROWTHS_h.map((growth_h) => mixtureOf(own, inverse, compared(shapesOf({ growth_h, faster })))),
  );
}

function mixtureOf(own: number[][], inverse: number[][], others: number[][]): Mixture {
  const products = own.map((one) => others.map((other) => dot(one, other)));
  return inverse.map((row) =>
    others.map((_, other) =>
      dot(
        row,
        products.map((of) => of[other] as number),
      ),
    ),
  );
}

/** Computed once, when a source is first placed. */
let mixtures: readonly Mixture[] | undefined;

/** A place as it reads for sources of each growth. */
export function readingsByGrowth(reading: Reading): Reading[] {
  mixtures ??= mixturesOf();
  return mixtures.map((mixture) => ({ ...reading, weights: mixedBy(mixture, reading.weights) }));
}

function mixedBy(mixture: Mixture, weights: Float64Array): Float64Array {
  const mixed = new Float64Array(weights.length);
  for (let at = 0; at < weights.length; at += 1) {
    const row = mixture[at % SHAPES] as readonly number[];
    const from = at - (at % SHAPES);
    for (let shape = 0; shape < SHAPES; shape += 1)
      mixed[at] = (mixed[at] as number) + (row[shape] as number) * (weights[from + shape] as number);
  }
  return mixed;
}
