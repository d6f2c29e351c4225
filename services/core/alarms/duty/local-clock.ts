/**
 * The wall clock of an IANA time zone: which day it is there, and when its clock shows a time.
 *
 * A time of the clock that does not exist on a day (the clock is put forward over it) is the instant at which the
 * clock jumps over it. One that exists twice (the clock is put back) is the first or the second, as asked.
 */
import { DAY_ms, MINUTE_ms } from '../../model/time.js';
import { jumpBetween, offsetsOf } from './zone-offsets.js';

export interface LocalClock {
  /** Number of the local day that holds the time, counted from 1970-01-01. */
  dayOf(time: number): number;
  /** When the clock shows so many minutes after 00:00 on a day for the first time, ms. */
  firstAt(day: number, minutes: number): number;
  /** The same for the last time. */
  lastAt(day: number, minutes: number): number;
}

/**
 * The clock of a zone.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a name that is no IANA time zone
 */
export function localClock(timeZone: string): LocalClock {
  const offset_ms = offsetsOf(timeZone);
  const shownAt = (day: number, minutes: number, last: boolean): number => {
    // What the clock shows, as if it were UTC: real offsets are between -12 h and +14 h.
    const face = day * DAY_ms + minutes * MINUTE_ms;
    const before = offset_ms(face - DAY_ms);
    const after = offset_ms(face + DAY_ms);
    const times = [face - before, face - after].filter((time) => time + offset_ms(time) === face);
    if (times.length === 0) return jumpBetween(face - DAY_ms, face + DAY_ms, offset_ms);
    return last ? Math.max(...times) : Math.min(...times);
  };
  return {
    dayOf: (time) => Math.floor((time + offset_ms(time)) / DAY_ms),
    firstAt: (day, minutes) => shownAt(day, minutes, false),
    lastAt: (day, minutes) => shownAt(day, minutes, true),
  };
}
