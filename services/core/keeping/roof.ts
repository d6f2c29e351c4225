/** The roof of a pit: a gable of thatch on poles that stand outside the pit, its ridge along the length. */
import { figureOf } from './plan-figures.js';
import type { PlanStep } from './plan-steps.js';

export interface Roof {
  /** Of the ground that it covers, cm. */
  readonly length_cm: number;
  readonly width_cm: number;
  /** Of the ridge above the ground, cm. */
  readonly ridge_cm: number;
  /** Both slopes, m2. */
  readonly thatch_m2: number;
  /** Along both sides, and at the two ends under the ridge; with the part in the ground, cm. */
  readonly side_poles: number;
  readonly side_pole_cm: number;
  readonly ridge_poles: number;
  readonly ridge_pole_cm: number;
}

/** One at each end: one between them would stand in the pit. A long ridge rests on beams from side pole to side pole. */
const RIDGE_POLES = 2;

/** @param opening the top step */
export function roofOver({ length, width }: PlanStep): Roof {
  const [length_cm, width_cm] = [length + 2 * figureOf('eaves'), width + 2 * figureOf('eaves')];
  const pitch = (figureOf('thatch_pitch') * Math.PI) / 180;
  const ridge_cm = figureOf('eaves_height') + (width_cm / 2) * Math.tan(pitch);
  const bays = Math.ceil(length_cm / figureOf('pole_spacing'));
  return {
    length_cm,
    width_cm,
    ridge_cm,
    thatch_m2: (length_cm * width_cm) / Math.cos(pitch) / 1e4,
    side_poles: 2 * (bays + 1),
    side_pole_cm: figureOf('eaves_height') + figureOf('pole_in_ground'),
    ridge_poles: RIDGE_POLES,
    ridge_pole_cm: ridge_cm + figureOf('pole_in_ground'),
  };
}
