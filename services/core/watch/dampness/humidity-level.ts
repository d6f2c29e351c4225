/**
 * The humidity of the pore air at a probe against its own sound weeks.
 *
 * Vapour density follows saturation at the sand's temperature times the humidity, and in sound sand the humidity is
 * steady: so relative humidity, taken at the sand's own temperature, is vapour density with the warmth divided out,
 * and its rise is the rise that the temperature does not explain.
 */
import { median } from 'simple-statistics';
import { DAY_ms } from '../../model/time.js';
import { robustScale, theilSen } from '../sequential/index.js';
import { valuesBefore } from './hours.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DampProbeState, HumidityReference, HumidityState } from './state.js';

/** The median of the last day, %RH; null where too little was measured. */
export function levelOf({ hours }: HumidityState): number | null {
  const day = valuesBefore(hours, 0, DAMPNESS.level_h - 1);
  return day.length >= DAMPNESS.levelNeeds_h ? median(day) : null;
}

/** What the sound days say; null until enough have passed. */
export function referenceOf({ days }: HumidityState): HumidityReference | null {
  const learned = days.slice(0, Math.max(0, days.length - DAMPNESS.learnedLag_days));
  if (!(learned.length >= DAMPNESS.learnedNeeds_days)) return null;
  const { median: level_RH, deviation } = robustScale(learned.map(([level]) => level));
  const stated = learned.flatMap(([, uncertainty]) => (uncertainty === null ? [] : [uncertainty]));
  return {
    level_RH,
    spread_RH: Math.max(deviation, DAMPNESS.spreadLeast_RH),
    uncertainty_RH: stated.length > 0 ? median(stated) : null,
  };
}

/**
 * How much of a rise may be the sensor's creep, %RH: what the stated uncertainty has grown by, or, where none is
 * stated, the whole of it for a sensor that was learned below the range in which it creeps.
 */
export function creep_RH(reference: HumidityReference, uncertainty_RH: number | undefined): number {
  if (uncertainty_RH !== undefined && reference.uncertainty_RH !== null)
    return Math.max(0, uncertainty_RH - reference.uncertainty_RH);
  return reference.level_RH < DAMPNESS.creepFrom_RH ? DAMPNESS.creep_RH : 0;
}

/** The trend of the last days from means of some hours; null where too little was measured. */
export function trendOf({ hours }: HumidityState): HumidityState['trend'] {
  const points: (readonly [day: number, mean_RH: number])[] = [];
  for (let from = hours.length; from >= DAMPNESS.trendBin_h; from -= DAMPNESS.trendBin_h) {
    const bin = hours
      .slice(from - DAMPNESS.trendBin_h, from)
      .filter((value): value is number => value !== null);
    if (2 * bin.length >= DAMPNESS.trendBin_h)
      points.push([(from - hours.length) / 24, bin.reduce((sum, value) => sum + value, 0) / bin.length]);
  }
  if (!(points.length >= DAMPNESS.trendNeeds)) return null;
  const { slope, slopeInterval } = theilSen(points, DAMPNESS.trendConfidence);
  // Adding 0 takes the sign off a zero, which JSON would lose.
  return slopeInterval ? { slope_RH_per_day: slope + 0, least_RH_per_day: slopeInterval.low + 0 } : null;
}

/** Whether a rise at a probe says anything at a time: sand that was packed, opened or dug into is settling. */
export function isSettled(
  { packedAt, openedAt }: DampnessState,
  { since }: DampProbeState,
  at: number,
): boolean {
  const days = (from: number): number => (at - from) / DAY_ms;
  return (
    days(packedAt) >= DAMPNESS.wettedByRoots_days &&
    days(Math.max(since, openedAt ?? since)) >= DAMPNESS.settling_days
  );
}

/** Whether a day may be learned from: later than the quick wetting by roots, and not in the days after an opening. */
export function mayLearn(
  { packedAt, openedAt }: DampnessState,
  { since }: DampProbeState,
  at: number,
): boolean {
  return (at - Math.max(packedAt, since, openedAt ?? since)) / DAY_ms >= DAMPNESS.unlearned_days;
}
