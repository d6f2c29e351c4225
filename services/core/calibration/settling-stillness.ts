/**
 * Probes whose steps are so coarse that a slope hides under them: how long their values must stand still.
 *
 * A value that stays on one step lies within half of it for as long, so that what it may still drift is held by the
 * uncertainty of the step itself: it need not stand still for longer than one of a usual step.
 */
import { type BenchReading, READINGS_LEAST, roundingOf, type SettlingWindow } from './settling-window.js';
import { studentScore } from './student.js';

/** Stillness that a probe waits for. */
export interface Stillness {
  /** Of the probe's values, in their unit. */
  readonly step: number;
  /** Whether the step is known; else a usual one is taken. */
  readonly isKnown: boolean;
  readonly needs_min: number;
  /** s after the last reading, where nothing changes until then. */
  readonly left_s: number;
}

export interface StillnessRule {
  readonly slopeMost_perMinute: number;
  readonly scatterMost: number;
  readonly stepIfUnseen: number;
}

/** Deviations that noise spans from its lowest to its highest. */
const NOISE = 6;

/** Differences below this are rounding of the numbers themselves. */
const SAME = 1e-6;

/**
 * What a probe waits for that would have settled by now, were it not for its steps; absent where something else keeps it.
 *
 * @param inBath all readings in the bath, in order of time
 * @param shortest the window that was judged first
 * @param windows_min spans of the windows that are judged, ascending
 */
export function stillnessFor(
  inBath: readonly BenchReading[],
  shortest: SettlingWindow,
  rule: StillnessRule,
  windows_min: readonly number[],
): Stillness | undefined {
  const { step, stepFrom, count } = shortest;
  const least_min = windows_min.find((span) => passes(step, span, count, rule));
  const isCoarse = least_min === undefined;
  if (!isCoarse && (least_min === windows_min[0] || !isQuiet(shortest, rule))) return undefined;
  const needs_min = least_min ?? windows_min.find((span) => passes(rule.stepIfUnseen, span, count, rule));
  if (needs_min === undefined) return undefined;
  const still_s = stillFor_s(inBath, isCoarse ? SAME : step + NOISE * shortest.scatter + SAME);
  const span_s = Math.max(60 * needs_min, (READINGS_LEAST - 1) * paceOf_s(shortest));
  if (!(still_s < span_s)) return undefined;
  return { step, isKnown: stepFrom !== 'usual', needs_min: Math.ceil(span_s / 60), left_s: span_s - still_s };
}

/** Whether the rounding of a step alone leaves a slope within the limit. */
const passes = (step: number, span_min: number, count: number, { slopeMost_perMinute }: StillnessRule) =>
  studentScore(0.025, count - 2) * roundingOf(step, span_min) <= slopeMost_perMinute;

/** Nothing moves but by the steps. */
const isQuiet = (
  { scatter, slopePerMinute }: SettlingWindow,
  { scatterMost, slopeMost_perMinute }: StillnessRule,
): boolean => scatter <= scatterMost && Math.abs(slopePerMinute) <= slopeMost_perMinute;

/** Since when the values have spanned no more than this, s. */
function stillFor_s(readings: readonly BenchReading[], span: number): number {
  const last = readings.at(-1);
  if (last === undefined) return 0;
  let [low, high, since] = [last.value, last.value, last.time];
  for (const { time, value } of [...readings].reverse()) {
    low = Math.min(low, value);
    high = Math.max(high, value);
    if (!(high - low <= span)) break;
    since = time;
  }
  return (last.time - since) / 1000;
}

const paceOf_s = ({ from, to, count }: SettlingWindow): number => (to - from) / 1000 / (count - 1);
