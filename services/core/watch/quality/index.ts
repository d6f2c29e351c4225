/** Reading quality: the only door to this folder. */
export type { FaultVerdict } from './faults.js';
export type { QualityStep } from './judge-value.js';
export type { QualityPlace } from './limits.js';
export { type QualityResult, stepQuality, type UsableHour } from './quality.js';
export {
  type FaultKind,
  newQuality,
  placeAnew,
  type QualityState,
  qualityStateSchema,
} from './state.js';
