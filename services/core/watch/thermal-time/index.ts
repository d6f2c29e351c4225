/** Degree-days of sprouting and weevils, and when a bed must be looked into by hand: the only door to this folder. */
export {
  DEFAULT_SETTINGS,
  type Development,
  type DevelopmentName,
  degreesAbove,
  type ThermalTimeSettings,
  thermalTimeSettings,
} from './developments.js';
export { nextLook } from './next-look.js';
export { daysToCome, type Outlook, outlook } from './outlook.js';
export {
  LOOK_REASONS,
  type NextLook,
  startThermalTime,
  type ThermalTimeState,
  thermalTimeStateSchema,
} from './state.js';
export { inspectThermalTime, type Look, stepThermalTime } from './step.js';
export type { DegreeDaySum } from './sum.js';
export { BRIDGE_h } from './warmth.js';
