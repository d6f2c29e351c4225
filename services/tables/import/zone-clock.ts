/**
 * From what a clock on a wall shows to the instant: by an IANA time zone, or by a fixed offset such as +02:00 of a
 * logger that knows no summer time.
 *
 * Invariant: offsets are whole minutes from 2000 on, and no zone changes its offset twice within three days.
 */
import { IANAZone } from 'luxon';
import { jumpBetween } from '../../core/alarms/duty/zone-offsets.js';
import { DAY_ms, HOUR_ms, MINUTE_ms } from '../../core/model/time.js';

/** An instant, ms; or both instants of a local time that came twice, or what a skipped one would be by each offset. */
export type Instant =
  | number
  | { readonly kind: 'repeated' | 'skipped'; readonly earlier: number; readonly later: number };

/** @param local the clock's date and time, as if it were UTC, ms */
export type ZoneClock = (local: number) => Instant;

const FIXED = /^([+-])(0\d|1[0-4]):([0-5]\d)$/;

/** Days of a zone that are kept: fifty years. */
const MOST_DAYS = 20_000;

/** What is wrong with the name of a zone; undefined where nothing is. */
export function zoneProblem(zone: string): string | undefined {
  if (FIXED.test(zone) || IANAZone.isValidZone(zone)) return undefined;
  return `expected an IANA time zone such as Africa/Lusaka or an offset such as +02:00, got ${JSON.stringify(zone)}`;
}

/** @param zone one without a problem */
export function zoneClock(zone: string): ZoneClock {
  const [, sign, hours, minutes] = FIXED.exec(zone) ?? [];
  if (sign !== undefined) {
    const offset = (Number(hours) * HOUR_ms + Number(minutes) * MINUTE_ms) * (sign === '-' ? -1 : 1);
    return (local) => local - offset;
  }
  const { offset } = zoneOf(zone);
  return byDay(offset);
}

function zoneOf(name: string): { offset: (time: number) => number } {
  const zone = IANAZone.create(name);
  return { offset: (time) => zone.offset(time) * MINUTE_ms };
}

/** Offsets around a day of the clock. */
interface ClockDay {
  readonly before: number;
  readonly after: number;
  /** Instant of the change; Infinity where there is none near. */
  readonly changesAt: number;
}

function byDay(offsetAt: (time: number) => number): ZoneClock {
  const days = new Map<number, ClockDay>();
  return (local) => {
    const day = Math.floor(local / DAY_ms);
    let known = days.get(day);
    if (!known) {
      if (days.size >= MOST_DAYS) days.clear();
      known = clockDay(day, offsetAt);
      days.set(day, known);
    }
    return instantOf(local, known);
  };
}

/** No clock is more than 14 hours from UTC: what it shows on a day lies between the days before and after in UTC. */
function clockDay(day: number, offsetAt: (time: number) => number): ClockDay {
  const [from, to] = [(day - 1) * DAY_ms, (day + 2) * DAY_ms];
  const [before, after] = [offsetAt(from), offsetAt(to)];
  const changesAt = before === after ? Number.POSITIVE_INFINITY : jumpBetween(from, to, offsetAt);
  return { before, after, changesAt };
}

function instantOf(local: number, { before, after, changesAt }: ClockDay): Instant {
  const byBefore = local - before;
  if (changesAt === Number.POSITIVE_INFINITY) return byBefore;
  const byAfter = local - after;
  const isBefore = byBefore < changesAt;
  const isAfter = byAfter >= changesAt;
  if (isBefore !== isAfter) return isBefore ? byBefore : byAfter;
  return isBefore
    ? { kind: 'repeated', earlier: byBefore, later: byAfter }
    : { kind: 'skipped', earlier: byAfter, later: byBefore };
}
