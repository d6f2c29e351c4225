/** Comparing beds and treatments: the only door to this folder, but for `assign.ts`, which draws and reckons nothing. */
export { compare, type ValueDesign } from './compare.js';
export {
  type Assumption,
  type Comparison,
  DESIGNS,
  type Design,
  type Difference,
  type Interval,
  LEVEL,
  mainTest,
  type Test,
  type TreatmentSummary,
} from './comparison.js';
export { type Factorial, type FactorialBed, type FactorMeans, factorialInBlocks } from './factorial.js';
export { meansWords } from './factorial-words.js';
export { type BedMaterial, type BedOutcome, OUTCOME_WORDS, outcomeOf } from './outcome.js';
export { type BedValue, type PerBed, perBed } from './per-bed.js';
export { bedsNeeded, type PowerQuestion, powerOf, type TrialSize, trialSize } from './power.js';
export { type TrialDocument, trialReport } from './report.js';
export { rootsCsv, valuesCsv } from './report-tables.js';
export type { RootsSeen } from './roots-seen.js';
export { type BedCurve, type CurvePoint, type SummaryCurve, summaryCurves } from './summary-curve.js';
export { compareSurvival, type KeptTreatment, type SurvivalComparison } from './survival.js';
export { survivalWords } from './survival-words.js';
export {
  CURVE_WORDS,
  CURVES_BY,
  CURVES_OF,
  type CurvesBy,
  type CurvesOf,
  trialCurves,
} from './trial-curves.js';
export { rootsOfTrial, type TrialResult, type TrialRow, trialResult } from './trial-result.js';
export { type ComparisonWords, comparisonWords } from './words.js';
