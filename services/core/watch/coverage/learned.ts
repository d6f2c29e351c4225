/**
 * A bed that has been learned: what each step of the watch's filter does to whatever is in the readings.
 *
 * How sure the filter is of anything does not depend on what was measured, only on what could be told apart. So it is
 * run over a sound bed that shows exactly what is expected of it, and what a source would leave is sent through after.
 */
import type { Bed } from '../../model/site.js';
import { cover_cm } from '../warmth/cover.js';
import { Expected } from '../warmth/expected.js';
import { type Gain, product, update } from '../warmth/kalman.js';
import { noise_C } from '../warmth/priors.js';
import type { Point, Responses } from '../warmth/responses.js';

/** A bed as the watch over its warmth knows it. */
export type BedShape = Pick<Bed, 'kind' | 'steps' | 'roots'>;

/** Days in which a bed is learned before a source begins; what is learned later adds little. Judgement. */
export const LEARNED_days = 20;

export const STEPS_A_DAY = 4;

/** A nominal shade: its mean, and how far the steps of a day are from it, °C. Only the rows of waves depend on it. */
const SHADE_C = 20;
const OF_DAY_C = [-4, 0, 4, 0] as const;

/**
 * What a day's air under the roof is taken to differ by from what the shade says once a bed is learned, °C. The watch
 * learns it from what it sees, and readings that show just what is expected would teach it too little. Measured at day 20 of
 * simulated seasons in which the unknowns of the bed are drawn anew: 0.57 to 0.67 in eight of ten.
 */
export const SURFACE_C = 0.6;

const middle = (values: readonly number[]): number =>
  [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)] ?? SHADE_C;

/**
 * @param shade whether a shade probe tells what the weather does
 * @param count of steps of six hours
 * @returns by step, what the filter did in it
 */
export function learnedGains(
  bed: BedShape,
  points: readonly Point[],
  responses: Responses,
  shade: boolean,
  count: number,
): Gain[] {
  const expected = new Expected(bed, points, responses, SHADE_C, SHADE_C);
  const { state, layout } = expected;
  const noise = points.map((point) => noise_C(cover_cm(bed, point), !shade) ** 2);
  let bed_C = SHADE_C;
  return Array.from({ length: count }, (_, step) => {
    expected.advance(step, bed_C, shade ? SHADE_C + (OF_DAY_C[step % 4] as number) : undefined);
    if (shade && step % STEPS_A_DAY === 0) state.set(layout.day(step / STEPS_A_DAY), 0, SURFACE_C);
    const { rows, bases } = expected.measure(step, []);
    const shown = rows.map((row) => product(row, state.x));
    bed_C = middle(shown.map((value, probe) => value + (bases[probe] as number)));
    return update(state.x, state.P, rows, shown, noise) as Gain;
  });
}
