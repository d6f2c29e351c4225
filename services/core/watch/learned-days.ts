/**
 * The days that the watch has learned from, and which of them count today: those that lie some days back, so that
 * a source which begins is not learned away.
 */
import { PARAMETERS } from './parameters.js';

const { baselineLag_days, baselineRecent_days, baselineLeast_days, learnedMost_days, learnedOldest_days } =
  PARAMETERS;

/** A day, counted since the epoch, and what it was like. */
export type Dated<Value> = readonly [day: number, value: Value];

/** The first day that is still believed. */
export const learnedOldestFrom = (today: number): number => today - learnedOldest_days;

/** Adds a day and drops what is too old or too much. */
export function learnDay<Value>(days: [number, Value][], day: number, value: Value): void {
  days.push([day, value]);
  const tooOld = days.filter(([before]) => before < learnedOldestFrom(day)).length;
  days.splice(0, Math.max(tooOld, days.length - learnedMost_days));
}

/**
 * The days that count: those that lie far enough back; while these are too few, the first that were learned.
 *
 * @param days in order
 * @param today days since the epoch
 * @returns undefined where there are too few
 */
export function countingDays<Value>(
  days: readonly Dated<Value>[],
  today: number,
): readonly Dated<Value>[] | undefined {
  const believed = days.filter(([day]) => day >= learnedOldestFrom(today));
  const lagging = believed.filter(([day]) => day <= today - baselineLag_days);
  const counting = lagging.length >= baselineLeast_days ? lagging : believed.slice(0, baselineLeast_days);
  return counting.length >= baselineLeast_days ? counting : undefined;
}

/** Of the days that count, those of the last weeks: what a level is taken from. */
export function recentOf<Value>(counting: readonly Value[]): readonly Value[] {
  return counting.slice(-baselineRecent_days);
}
