/** Whether evidence for a source is somebody's hand in the sand: rot grows from nothing, and slowly. */
import type { Candidate } from './weighing.js';

/**
 * Rise of the best ratio in one step, with nothing suspected before, that is somebody's hand and no source. Judgement: at
 * 25 strong sources were taken for hands; from 80 on the evaluation gave the same.
 */
const LEAP = 120;
/**
 * Ratio for each step since it began that is more than a rot can have come to in its first day: it is sand that the sun
 * warmed, put back without a word. Of drawn seasons such openings gave 26 to 146 a step, a rot 13 at the most.
 */
const SUDDEN_a_step = 17;
const SUDDEN_steps = 4;

export interface Before {
  /** Best ratio of the step before. */
  readonly ratio: number;
  /** Whether anything is told of, or about to be. */
  readonly suspected: boolean;
  /** Whether a source is told of. */
  readonly told: boolean;
}

export function isHand(best: Candidate | undefined, step: number, before: Before): boolean {
  if (!best) return false;
  const leapt = !before.suspected && best.ratio - before.ratio > LEAP;
  const age_steps = step - best.onset.step;
  const sudden = age_steps <= SUDDEN_steps && best.ratio > SUDDEN_a_step * Math.max(1, age_steps);
  return leapt || (!before.told && sudden);
}
