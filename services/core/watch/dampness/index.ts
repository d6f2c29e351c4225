/** Damp, wetting and condensation, hour by hour of event time: the only door to this folder. */

export { shiftDampness } from './shift.js';
export { type DampnessState, dampnessStateSchema, newDampness } from './state.js';
export { stepDampness } from './step.js';
export type {
  DampFinding,
  Dampness,
  DampnessHour,
  DampnessProbe,
  DampSign,
  ProbeDampness,
  SwingReading,
} from './types.js';
