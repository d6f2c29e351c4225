/** Times as they are typed into a field of a form: clock time of the site, as `datetime-local` writes it. */
import { say } from './say.js';
import { timeInFull, zoneNow } from './times.js';

const MINUTE_ms = 60_000;

/** Clock time of the site as a field holds it: `2026-05-04T10:00`. @param at ms since 1970 */
export function zonedText(at: number): string {
  const parts = Object.fromEntries(
    new Intl.DateTimeFormat('en', {
      ...{ timeZone: zoneNow(), hourCycle: 'h23', year: 'numeric' },
      ...{ month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit' },
    })
      .formatToParts(at)
      .map(({ type, value }) => [type, value]),
  );
  return `${parts['year']}-${parts['month']}-${parts['day']}T${parts['hour']}:${parts['minute']}`;
}

/**
 * The time that a field holds, as the service takes it (ISO 8601, UTC). What is no time is given back as it is: the
 * service says what it expected. Of an hour that is there twice the earlier one is meant.
 */
export function zonedTime(text: string): string {
  const asUtc = Date.parse(`${text}Z`);
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(text) || Number.isNaN(asUtc)) return text;
  const offset = (at: number): number =>
    Date.parse(`${zonedText(at)}Z`) - Math.floor(at / MINUTE_ms) * MINUTE_ms;
  const guess = asUtc - offset(asUtc);
  return new Date(asUtc - offset(guess)).toISOString();
}

/**
 * What was understood of a time: the browser shows such fields by its own habit, which may be mm/dd and AM or PM, and takes
 * no other. Undefined for other fields, and where no time is typed yet.
 *
 * @param type of the field, as HTML has it
 */
export function understood(type: string, value: string): string | undefined {
  if (type === 'time')
    return /^\d\d:\d\d$/.test(value) ? say('parts.understood', { time: value }) : undefined;
  const time = type === 'datetime-local' ? zonedTime(value) : value;
  return time === value ? undefined : say('parts.understood', { time: timeInFull(time) });
}
