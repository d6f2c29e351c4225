/** Sequential tests with a known rate of false alarms, and robust middles and trends: the only door to this folder. */
export { alarmRateForRunLength, BED_MONTH_days, runLengthForAlarmRate, type Stepping } from './alarm-rate.js';
export { type CusumDesign, type CusumState, cusumStateSchema, startCusum, stepCusum } from './cusum.js';
export {
  type CusumInDeviations,
  oneSidedCusumRunLength,
  twoSidedCusumRunLength,
} from './cusum-run-length.js';
export {
  asymptoticEwmaLimits,
  type EwmaDesign,
  type EwmaState,
  ewmaLimits,
  ewmaStateSchema,
  isOutside,
  type Limits,
  startEwma,
  stepEwma,
} from './ewma.js';
export { type EwmaInDeviations, ewmaRunLength } from './ewma-run-length.js';
export { type Bisection, cusumLimitFor, ewmaWidthFor } from './limit-for-run-length.js';
export { mannKendall, type Trend } from './mann-kendall.js';
export { normalDensity, normalScore, normalTail } from './normal.js';
export { DEVIATION_PER_MAD, type RobustScale, robustScale } from './robust-scale.js';
export { RUN_LENGTH_MOST } from './run-length.js';
export { type Point, type RobustLine, theilSen } from './theil-sen.js';
