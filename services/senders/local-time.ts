/** Event time as people on the site read it. */

const formats = new Map<string, Intl.DateTimeFormat>();

function formatFor(timeZone: string): Intl.DateTimeFormat {
  let format = formats.get(timeZone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
      timeZoneName: 'longOffset',
    });
    formats.set(timeZone, format);
  }
  return format;
}

/**
 * `2026-05-24 17:00 +02:00`: the day and minute in the site's zone, with the zone's offset then.
 *
 * @param time ms since the epoch
 * @param timeZone IANA name that the runtime knows; RangeError otherwise
 */
export function localTime(time: number, timeZone: string): string {
  const parts = formatFor(timeZone).formatToParts(time);
  const part = (type: Intl.DateTimeFormatPartTypes): string =>
    parts.find((candidate) => candidate.type === type)?.value ?? '';
  const offset = part('timeZoneName').replace('GMT', '') || '+00:00';
  return `${part('year')}-${part('month')}-${part('day')} ${part('hour')}:${part('minute')} ${offset}`;
}
