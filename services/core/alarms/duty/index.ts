/** Telling people of alarms: who, when, and in how many messages. */
export { type Figures, type FiguresInput, figuresOf, RECOMMENDED_RATES } from './figures.js';
export { type LocalClock, localClock } from './local-clock.js';
export { planTelling } from './plan.js';
export type {
  AlarmToTell,
  BedToTell,
  Form,
  Pace,
  PersonTelling,
  PersonToTell,
  ReachWay,
  TellingInput,
  TellingPlan,
  ToldRecord,
} from './types.js';
