/** When a simulated season begins, where nobody says so. */
import { DAY_ms, HOUR_ms } from '../core/model/time.js';

/**
 * The newest local midnight from which a season is over by now: the simulated sun goes by hours since the season's
 * beginning.
 *
 * @param now wall clock, ms
 * @param timezone IANA name
 */
export function seasonStart(now: number, days: number, timezone: string): number {
  const latest = now - days * DAY_ms - HOUR_ms;
  return latest - sinceMidnight_ms(latest, timezone);
}

function sinceMidnight_ms(time: number, timezone: string): number {
  const clock = new Intl.DateTimeFormat('en', {
    timeZone: timezone,
    hourCycle: 'h23',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  const part = (type: string): number =>
    Number(clock.formatToParts(time).find((one) => one.type === type)?.value ?? 0);
  return ((part('hour') * 60 + part('minute')) * 60 + part('second')) * 1000 + (time % 1000);
}
