/** Calibration of probes: the only door to this folder. Units are °C and %RH, uncertainties standard (k = 1). */
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
export { type FitOptions, fitCalibration, type PointLeftOut } from './fit.js';
export { FORM_NEEDS, type FormNeeds } from './form-needs.js';
export { type Degree, fitPolynomial, type Observations, type PolynomialFit } from './least-squares.js';
export { PAIR_COLUMNS } from './pair-columns.js';
export type { Pair, PairDefaults } from './pair-line.js';
export { GREATEST_CORRECTION, pointProblem } from './point.js';
export { polynomialAt, polynomialUncertaintyAt, type UncertainPolynomial } from './polynomial.js';
export { type BadLine, MOST_CHARACTERS, MOST_PAIRS, type Pairs, readPairs } from './read-pairs.js';
export { studentScore, studentTail } from './student.js';
