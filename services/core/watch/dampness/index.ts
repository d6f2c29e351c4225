/** Damp, wetting and condensation, hour by hour of event time: the only door to this folder. */

export { cover_cm } from './cover.js';
export {
  type DailyShares,
  type DayShare,
  NO_SHARE,
  type NoShare,
  SHARE_DEPTH_cm,
  SHARE_HOURS,
  type SharesThrough,
  sharesOfDay,
  sharesThrough,
} from './daily-shares.js';
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
