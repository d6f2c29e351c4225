/** Keeping roots before and between readings: the only door to this folder. */
export {
  cannotTell,
  DEPTH_VERDICTS,
  type DepthJudgement,
  type DepthVerdict,
  judgeDepth,
  type Lies,
} from './buried-depth.js';
export { crossSectionSvg, KIND_IN_WORDS } from './cross-section.js';
export {
  calibrationSentence,
  fillingSentence,
  inspectionSentence,
  overrideEventSentence,
  placedSentence,
  stockOutSentence,
  takenOutSentence,
} from './event-words.js';
export { EVENT_KINDS, type EventKind } from './events.js';
export { type ExpectedSwing, expectedSwing } from './filling.js';
export { roomNote } from './filling-room.js';
export { fillingsInForce, isFilledLater, latestFilling, withFillings } from './filling-standing.js';
export { daySwing } from './filling-swing.js';
export { expectedInWords, judgedInWords } from './filling-words.js';
export { HOLDING } from './hold-or-sell.js';
export { type Advice, adviceFor } from './inspection-advice.js';
export { fillingCautions, lookCautions } from './look-cautions.js';
export { LOOK_DUE_BY, type LookDue, lookDue } from './looks-due.js';
export { survivalOf } from './loss.js';
export { LOSS_CAUSES, type LossLook, lossLookOf } from './loss-look.js';
export { lossOverSeason, type SeasonLoss } from './loss-season.js';
export { type Count, kaplanMeier, keptUntil, type SurvivalStep } from './loss-survival.js';
export {
  inHands,
  inMeasures,
  MEASURE_LIMITS,
  type Measures,
  requireMeasures,
  USUAL_MEASURES,
} from './measures.js';
export type { Band } from './outlook.js';
export type { DailyMean } from './outlook-rate.js';
export { type Outlook, type OutlookTask, outlookOf, WARMTH_FROM } from './outlook-report.js';
export { MOST_ASKED, type PlanQuestion, planBed } from './plan.js';
export { PLAN_FIGURES, type PlanFigure, type PlanFigureName } from './plan-figures.js';
export { SOUGHT } from './plan-probes.js';
export { HEIGHT_cm, type PlanKind, type PlanStep, requirePlanSteps, SIDE_cm } from './plan-steps.js';
export type { CourseOfPlan, Plan, PlanFit, StepOfPlan } from './plan-types.js';
export {
  type Activity,
  POWER_DEFAULTS,
  type PowerBudget,
  type PowerTask,
  powerBudget,
} from './probe-power.js';
export { powerCautions, powerInLines } from './probe-power-words.js';
export { type Readiness, readinessOf } from './readiness.js';
export type { ProbeHour } from './readiness-days.js';
export { type LimitsInForce, limitsOfBed, watchLimit } from './readiness-limits.js';
export { overrideReadiness } from './readiness-override.js';
export { readinessSentence } from './readiness-words.js';
export type { ReadinessProbe } from './readiness-worst.js';
export type { Roof } from './roof.js';
export { ROOT_MASS_kg } from './root-size.js';
export { type RotLeft, type RotStanding, rotStanding } from './rot-left.js';
export { type GrainsDocument, type SandDocument, sandDocument } from './sand-document.js';
export { sandLimits } from './sand-limits.js';
export { BUCKET_L } from './sand-needed.js';
export { sandReport } from './sand-report.js';
export { SAND_FAULTS } from './sand-verdict.js';
export { BEDS_MOST, type SeasonDocument, seasonReport } from './season-report.js';
export { SHOWN } from './season-report-bed.js';
export { type BedSeason, type SeasonFigures, seasonFigures } from './season-report-figures.js';
export { seasonReportPage } from './season-report-page.js';
export { emptyLedger, type Ledger, rootsAt, withEntries } from './stock.js';
export {
  countable,
  counterOfSuperseded,
  type DerivedId,
  entriesOfInspection,
  entryOfFilling,
} from './stock-following.js';
export { isSameRecord } from './stock-merge.js';
export { rootMass_kg, type StockTotals, stockTotals } from './stock-totals.js';
export type { TakenAlong } from './take-along.js';
export {
  type InHand,
  TODAY_KINDS,
  TODAY_WHEN,
  type TodayBed,
  type TodayItem,
  type TodayReadiness,
  todayItems,
} from './today.js';
export { type TodaySentences, todaySentences } from './today-sentences.js';
export { GROUND_C, type SoundWarmth } from './warmth-above-ground.js';
