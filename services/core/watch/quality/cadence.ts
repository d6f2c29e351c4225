/** The cadence at which a probe measures, and the row of times that keeps to it. */
import { median } from 'simple-statistics';
import { QUALITY } from './limits.js';
import type { QualityState } from './state.js';

export type ClockState = QualityState['clock'];

/** Times a cadence apart, ms. */
export interface Row {
  readonly cadence: number;
  readonly keptAt: number;
}

/** Whether a time is a whole number of cadences after another, at least one. */
export function keepsTo(at: number, row: number, cadence: number): boolean {
  const passed = (at - row) / cadence;
  const nearest = Math.round(passed);
  return nearest >= 1 && Math.abs(passed - nearest) <= QUALITY.cadenceShare;
}

/** Learns the cadence where the last intervals agree, and are no multiples of the one that is known. */
export function learnCadence(clock: ClockState, interval: number): void {
  clock.intervals.push(interval);
  if (clock.intervals.length > QUALITY.cadenceOf) clock.intervals.shift();
  if (clock.cadence !== null && keepsTo(interval, 0, clock.cadence)) return;
  const middle = median(clock.intervals);
  const agreeing = clock.intervals.filter(
    (other) => Math.abs(other - middle) <= QUALITY.cadenceSteady * middle,
  );
  if (agreeing.length < QUALITY.cadenceNeeds || Math.round(middle) === clock.cadence) return;
  clock.cadence = Math.round(middle);
  clock.keptAt = null;
  clock.kept = 0;
}

/** The row that the next time is held to; undefined where none is known or it is too long ago. */
export function rowOf({ cadence, keptAt }: ClockState, at: number): Row | undefined {
  if (cadence === null || keptAt === null) return undefined;
  return at - keptAt <= QUALITY.phaseHeld * cadence ? { cadence, keptAt } : undefined;
}

/** A time that goes on with the row, or begins it. */
export function keep(clock: ClockState, at: number): void {
  if (clock.cadence === null) return;
  clock.keptAt = at;
  clock.kept = Math.min(QUALITY.keptMost, clock.kept + 1);
}

/** A time that belongs to no row: where these are many, the probe keeps no cadence. */
export function stray(clock: ClockState): void {
  clock.kept = Math.max(0, clock.kept - QUALITY.strayCosts);
}

/** Whether a probe keeps its cadence so well that a time beside it is the clock's fault. */
export const isTrusted = ({ kept }: ClockState): boolean => kept >= QUALITY.keptNeeds;
