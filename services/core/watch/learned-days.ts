/**
 * The sound days that a probe has learned from, and which of them count today: those that lie some days back, so
 * that a source which begins is not learned away.
 */
import { PARAMETERS } from './parameters.js';
import type { Day } from './state.js';

const { baselineLag_days, baselineRecent_days, baselineLeast_days, learnedMost_days, learnedOldest_days } =
  PARAMETERS;

/** A value of one day (days since the epoch). */
export interface Dated {
  readonly day: number;
  readonly value: number;
}

export const valuesOf = (dated: readonly Dated[]): number[] => dated.map(({ value }) => value);

export interface Window {
  /** Of the last weeks: what the level is taken from. */
  readonly recent: Dated[];
  /** Of all days that count: what the spread is taken from. */
  readonly all: Dated[];
}

/** The first day that is still believed. */
export const learnedOldestFrom = (today: number): number => today - learnedOldest_days;

/** Adds a sound day and drops what is too old or too much. */
export function learnDay(days: Day[], learned: Day): void {
  days.push(learned);
  const tooOld = days.filter(({ day }) => day < learnedOldestFrom(learned.day)).length;
  days.splice(0, Math.max(tooOld, days.length - learnedMost_days));
}

/**
 * The lagging window; while it is still too short, the first days that were learned.
 *
 * @param values in order of day
 * @returns undefined where there are too few days
 */
export function windowed(values: readonly Dated[], today: number): Window | undefined {
  const lagging = values.filter(({ day }) => day <= today - baselineLag_days);
  const counting = lagging.length >= baselineLeast_days ? lagging : values.slice(0, baselineLeast_days);
  if (counting.length < baselineLeast_days) return undefined;
  return { recent: counting.slice(-baselineRecent_days), all: counting };
}
