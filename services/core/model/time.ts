/**
 * Event time: integer milliseconds since the Unix epoch inside, RFC 3339 text at the edges.
 */
import { z } from 'zod';

export const MINUTE_ms = 60_000;
export const HOUR_ms = 60 * MINUTE_ms;
export const DAY_ms = 24 * HOUR_ms;

/** 2000-01-01T00:00:00Z. No probe of this kind measured anything earlier: an earlier time is a broken clock. */
export const EARLIEST_TIME_ms = 946_684_800_000;

/** 2100-01-01T00:00:00Z. Bounds what is taken from outside, so that text and arithmetic stay exact. */
export const LATEST_TIME_ms = 4_102_444_800_000;

/** Hours are checked here: Date.parse takes hour 24, and after a blank an offset of 25 hours. */
const RFC3339 =
  /^(\d{4})-(\d\d)-(\d\d)[Tt ]([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d+)?([Zz]|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/**
 * Reads an RFC 3339 date and time with its offset.
 *
 * @returns milliseconds since the epoch, or undefined where the text is no such time or lies outside 2000..2100
 */
export function parseTime(text: string): number | undefined {
  const [, year, month, day] = RFC3339.exec(text) ?? [];
  // Date.parse takes 30 February for 2 March.
  if (!(Number(day) <= daysInMonth(Number(year), Number(month)))) return undefined;
  const time = Date.parse(text);
  return time >= EARLIEST_TIME_ms && time < LATEST_TIME_ms ? time : undefined;
}

/** NaN where the month is none. */
const daysInMonth = (year: number, month: number): number =>
  month >= 1 && month <= 12 ? new Date(Date.UTC(year, month, 0)).getUTCDate() : Number.NaN;

/** RFC 3339 text in UTC with milliseconds only where there are any: `2026-05-04T08:00:00Z`. */
export function formatTime(time: number): string {
  return new Date(time).toISOString().replace('.000Z', 'Z');
}

/** The start of the hour, in UTC, that holds the time. */
export function hourOf(time: number): number {
  return Math.floor(time / HOUR_ms) * HOUR_ms;
}

/** A time in a document: RFC 3339 text in, milliseconds out. */
export const timeSchema = z.string().transform((text, context) => {
  const time = parseTime(text);
  if (time === undefined) {
    context.addIssue({
      code: 'custom',
      message: 'expected an RFC 3339 time with offset between 2000 and 2100, such as 2026-05-04T08:00:00Z',
      input: text,
    });
    return z.NEVER;
  }
  return time;
});
