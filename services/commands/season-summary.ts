/**
 * What was planted in a simulated season beside what the watch found.
 */
import type { Alarm } from '../core/model/alarm.js';
import { DAY_ms } from '../core/model/time.js';

/** Something wrong that the simulation put into a bed. */
export interface Planted {
  readonly bed: string;
  readonly kind: 'rot' | 'leak';
  /** Event time at which it began, ms. */
  readonly startsAt: number;
}

export interface Found {
  readonly bed: string;
  readonly planted: 'rot' | 'leak';
  readonly startsAt: number;
  /** The first alarm that asked for the bed to be unpacked for this; null where there was none. */
  readonly alarm: { readonly id: string; readonly raisedAt: number; readonly text: string } | null;
  /** The next look by hand after it began: every second week from the filling (common practice, no source). */
  readonly nextLookAt: number;
  /** How much sooner than that look the alarm came, days; negative where it came later. */
  readonly soonerBy_days: number | null;
}

export interface SeasonSummary {
  readonly found: readonly Found[];
  /** Alarms asking to unpack a bed in which nothing was planted by then. */
  readonly falseUnpack: readonly { readonly id: string; readonly bed: string; readonly raisedAt: number }[];
  readonly soundBeds: readonly string[];
}

const LOOK_EVERY_days = 14;

/** Kinds of alarm that answer to what was planted. */
const ANSWERS = { rot: ['heating'], leak: ['damp', 'wetting', 'condensation'] } as const;

/**
 * @param filledAt event time of the filling, from which looks by hand are counted, ms
 * @param alarms all alarms of the season
 */
export function summarise(
  planted: readonly Planted[],
  beds: readonly string[],
  filledAt: number,
  alarms: readonly Alarm[],
): SeasonSummary {
  const unpack = alarms
    .filter((alarm) => alarm.action === 'unpack')
    .sort((one, other) => one.raisedAt - other.raisedAt);
  const found = planted.map((one): Found => {
    const kinds: readonly string[] = ANSWERS[one.kind];
    const alarm = unpack.find(
      ({ bed, kind, raisedAt }) => bed === one.bed && kinds.includes(kind) && raisedAt >= one.startsAt,
    );
    const nextLookAt = nextLook(filledAt, one.startsAt);
    return {
      bed: one.bed,
      planted: one.kind,
      startsAt: one.startsAt,
      alarm: alarm ? { id: alarm.id, raisedAt: alarm.raisedAt, text: alarm.text } : null,
      nextLookAt,
      soonerBy_days: alarm ? (nextLookAt - alarm.raisedAt) / DAY_ms : null,
    };
  });
  const falseUnpack = unpack
    .filter(({ bed, raisedAt }) => !planted.some((one) => one.bed === bed && one.startsAt <= raisedAt))
    .map(({ id, bed, raisedAt }) => ({ id, bed, raisedAt }));
  const soundBeds = beds.filter((bed) => !planted.some((one) => one.bed === bed));
  return { found, falseUnpack, soundBeds };
}

function nextLook(filledAt: number, time: number): number {
  const looks = Math.floor((time - filledAt) / (LOOK_EVERY_days * DAY_ms)) + 1;
  return filledAt + looks * LOOK_EVERY_days * DAY_ms;
}

const dayOf = (filledAt: number, time: number): string => `day ${((time - filledAt) / DAY_ms).toFixed(1)}`;

/** The summary in lines for people; days are counted from the filling. */
export function describeSummary(
  summary: SeasonSummary,
  filledAt: number,
  nameOf: (bed: string) => string,
): string[] {
  const lines = summary.found.map(({ bed, planted, startsAt, alarm, nextLookAt, soonerBy_days }) => {
    const what = planted === 'rot' ? 'rot' : 'a leak';
    const start = `${nameOf(bed)}: ${what} began on ${dayOf(filledAt, startsAt)}`;
    if (!alarm || soonerBy_days === null) return `${start}; NOT FOUND by the watch`;
    const sooner = `${Math.abs(soonerBy_days).toFixed(1)} days ${soonerBy_days >= 0 ? 'sooner' : 'later'}`;
    return `${start}; "unpack" on ${dayOf(filledAt, alarm.raisedAt)}, ${sooner} than the next two-weekly look (${dayOf(filledAt, nextLookAt)})`;
  });
  const sound = summary.soundBeds.map((bed) => {
    const cries = summary.falseUnpack.filter((alarm) => alarm.bed === bed).length;
    return `${nameOf(bed)}: sound all season; ${cries === 0 ? 'no call to unpack' : `${cries} FALSE call${cries > 1 ? 's' : ''} to unpack`}`;
  });
  return [...lines, ...sound];
}
