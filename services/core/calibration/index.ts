/** Calibration of probes: the only door to this folder. Units are °C and %RH, uncertainties standard (k = 1). */
export {
  currentPoint,
  dropPoint,
  giveUp,
  openBench,
  pointNow,
  pointNumbersOf,
  pointsOf,
  requireOpenAt,
  stepOf,
} from './bench.js';
export { settlingOf } from './bench-capture.js';
export { type BenchSource, benchCautions, CAUTIONS, type CautionKey } from './bench-cautions.js';
export {
  type FinishedProbe,
  finished,
  probesUnfinished,
  requireUnfinished,
} from './bench-finish.js';
export { BENCH_SOURCE, beginPoint } from './bench-point.js';
export { capture, captureSettled, probesWaiting, type Waiting } from './bench-take.js';
export {
  budgetAt,
  COVERAGE_FACTOR,
  type ComponentName,
  type UncertaintyBudget,
  type UncertaintyComponent,
} from './budget.js';
export { type Correction, correctionAt } from './correction.js';
export {
  type AsFound,
  type AsFoundError,
  type CorrectionChange,
  correctionChange,
  driftBetween,
} from './drift.js';
export { type FieldCheck, type FieldCheckOptions, type FieldVerdict, fieldCheck } from './field-check.js';
export type { FieldPair, FieldSample } from './field-pairs.js';
export { type FitOptions, fitCalibration, type PointLeftOut } from './fit.js';
export {
  type AirPressure,
  type BoilingPoint,
  boilingPoint,
  boilingTemperature_C,
  ICE_POINT,
  pressureFromAltitude,
  saturationPressure_Pa,
  saturationPressureSlope_Pa_C,
  type TemperaturePoint,
} from './fixed-points.js';
export { FORM_NEEDS, type FormNeeds } from './form-needs.js';
export {
  ASSUMED_COEFFICIENT_RH_C,
  type HumidityInBath,
  type TemperatureEffect,
  temperatureEffect,
} from './humidity-in-use.js';
export { type InForce, inForceAt, inForceOver, pointsCounted, standing } from './in-force.js';
export { type Degree, fitPolynomial, type Observations, type PolynomialFit } from './least-squares.js';
export { PAIR_COLUMNS } from './pair-columns.js';
export type { Pair, PairDefaults } from './pair-line.js';
export { GREATEST_CORRECTION, pointProblem } from './point.js';
export { polynomialAt, polynomialUncertaintyAt, type UncertainPolynomial } from './polynomial.js';
export { type BadLine, MOST_CHARACTERS, MOST_PAIRS, type Pairs, readPairs } from './read-pairs.js';
export { type CalibrationContext, type CalibrationRequest, calibrationOf, type ProbeStep } from './record.js';
export { recordCautions } from './record-cautions.js';
export {
  SALTS,
  type Salt,
  type SaltHumidity,
  type SaltId,
  type SaltPoint,
  saltHumidity_RH,
  saltOf,
  saltPoint,
} from './salts.js';
export {
  SETTLING_RULES,
  type Settling,
  type SettlingOptions,
  type SettlingRule,
  SOAK_LEAST_s,
  settling,
} from './settling.js';
export type { BenchReading, SettlingWindow } from './settling-window.js';
export { studentScore, studentTail } from './student.js';
export { waitingWords } from './waiting-words.js';
export { UNIT } from './words.js';
