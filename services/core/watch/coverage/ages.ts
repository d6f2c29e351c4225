/** Which steps the watch counts when it is asked whether a source is found some days after it began. */
import { Bank } from '../warmth/bank.js';
import { LEARNED_days, STEPS_A_DAY } from './learned.js';

/** Step in which the source begins. */
export const ONSET_step = LEARNED_days * STEPS_A_DAY;

/** A verdict must have held for one step before it is told: `HOLDS_steps` of `open-sources.ts`. */
const HELD_steps = 1;

/** The last step that counts for a source that is to be told `days` after it began. */
export const lastStep = (days: number): number =>
  ONSET_step + Math.floor(days * STEPS_A_DAY) - 1 - HELD_steps;

/** Beginnings that the watch looks at in a step, oldest first: found by letting a bank without probes turn. */
export function beginningsAt(last: number): number[] {
  const bank = new Bank([], 0, 0);
  for (let step = 0; step <= last; step += 1) bank.turn(step);
  return bank.onsets.map(({ step }) => step);
}
