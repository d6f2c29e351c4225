/** A person's quiet hours and mornings, as instants. */
import { requireInDomain } from '../../errors.js';
import { minutesOfClock } from '../../model/clock-time.js';
import { LATEST_TIME_ms } from '../../model/time.js';
import type { LocalClock } from './local-clock.js';

export interface Rest {
  /** The end of the quiet hours that hold the time, ms; undefined where none do. */
  quietUntil(time: number): number | undefined;
  /** The first morning at or after the time, ms. */
  morningFrom(time: number): number;
  /** The last morning at or before the time, ms. */
  morningBefore(time: number): number;
}

interface Hours {
  readonly from: string;
  readonly to: string;
}

/**
 * Quiet hours begin when the clock first shows their beginning and end when it last shows their end, so that a clock
 * that is put back never shortens them. A person's morning is the site's, or the end of their quiet hours where
 * these hold the site's morning.
 *
 * @param morning of the site, `HH:MM`
 * @throws SandlarderError OUT_OF_DOMAIN for a time before 1970 or after 2100, and for a morning that is no time of the
 *   clock
 */
export function restOf(clock: LocalClock, quiet: Hours | undefined, morning: string): Rest {
  const quietUntil = quietHours(clock, quiet);
  const morning_min = minutesOfClock(morning);
  requireInDomain('morning, minutes of the day', morning_min, 0, 1439);
  const morningOf = (day: number): number => {
    const time = clock.firstAt(day, morning_min);
    return quietUntil(time) ?? time;
  };
  return {
    quietUntil,
    morningFrom: (time) => {
      requireInDomain('time, ms', time, 0, LATEST_TIME_ms);
      let day = clock.dayOf(time) - 1;
      while (!(morningOf(day) >= time)) day += 1;
      return morningOf(day);
    },
    morningBefore: (time) => {
      requireInDomain('time, ms', time, 0, LATEST_TIME_ms);
      let day = clock.dayOf(time) + 1;
      while (!(morningOf(day) <= time)) day -= 1;
      return morningOf(day);
    },
  };
}

function quietHours(clock: LocalClock, quiet: Hours | undefined): Rest['quietUntil'] {
  if (quiet === undefined) return () => undefined;
  const [from, to] = [minutesOfClock(quiet.from), minutesOfClock(quiet.to)];
  const endOn = (time: number): number | undefined => {
    const today = clock.dayOf(time);
    for (const day of [today - 1, today]) {
      const end = clock.lastAt(to > from ? day : day + 1, to);
      if (clock.firstAt(day, from) <= time && time < end) return end;
    }
    return undefined;
  };
  // Where a day's open hour does not exist, one night's quiet hours run into the next's.
  return (time) => {
    const first = endOn(time);
    let end = first;
    for (let next = first; next !== undefined; next = endOn(next)) end = next;
    return end;
  };
}
