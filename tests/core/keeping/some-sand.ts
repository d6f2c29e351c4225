/** Sievings to judge by. */

import type { Sieving } from '../../../services/core/model/sand-samples.js';
import { codeOf } from '../physics/refused.js';

export { codeOf };

type Pair = readonly [opening_mm: number, retained_g: number];

export const sievingOf = (pairs: readonly Pair[], pan_g: number, total_g?: number): Sieving =>
  Object.freeze({
    sieves: Object.freeze(pairs.map(([opening_mm, retained_g]) => Object.freeze({ opening_mm, retained_g }))),
    pan_g,
    ...(total_g === undefined ? {} : { total_g }),
  });

/** Washed medium sand: median 0.39 mm, 1 % of fines, no gravel. */
export const GOOD_SAND = sievingOf(
  [
    [4.75, 0],
    [2, 10],
    [1, 40],
    [0.5, 250],
    [0.25, 500],
    [0.15, 150],
    [0.075, 40],
  ],
  10,
  1000,
);
