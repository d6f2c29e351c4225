/** From the text of a time in a table to the instant, or why it is none. */
import { EARLIEST_TIME_ms, formatTime } from '../../core/model/time.js';
import { EPOCHS, ISO, type MappedTime } from './mapping.js';
import type { Refusal } from './refusal.js';
import { patternReader, type ReadTime } from './time-pattern.js';
import { type Instant, zoneClock } from './zone-clock.js';

/** @returns event time, ms, or why it is none */
export type TimeReader = (text: string) => number | Refusal;

/** [RFC 3339], or the same without seconds or offset [ISO 8601]. */
const ISO_TIME =
  /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d{1,9}))?)?(Z|[+-]\d\d(?::?\d\d)?)?$/i;

const NUMBER = /^-?\d+(?:\.\d+)?$/;

/** @param latest later times are of a wrong clock, ms */
export function timeReader(mapped: MappedTime, latest: number): TimeReader {
  const read = readerOf(mapped);
  const settle = settler(mapped);
  let lastText: string | undefined;
  let last: number | Refusal = Number.NaN;
  // Rows of one time mostly follow each other.
  return (text) => {
    if (text === lastText) return last;
    lastText = text;
    last = timeOf(text, read, settle, latest);
    return last;
  };
}

type Reader = (text: string) => ReadTime | undefined;
type Settle = (local: number, text: string) => number | Refusal;

function timeOf(text: string, read: Reader, settle: Settle, latest: number): number | Refusal {
  const found = read(text);
  if (found === undefined) return unreadable(text);
  const at = found.isInstant ? found.at : settle(found.at, text);
  if (typeof at !== 'number') return at;
  if (!(at >= EARLIEST_TIME_ms)) return bound('time-too-early', EARLIEST_TIME_ms, 'later', text);
  if (!(at <= latest)) return bound('time-in-future', latest, 'earlier', text);
  return at;
}

const unreadable = (text: string): Refusal => ({
  reason: 'time-unreadable',
  detail: `expected a time in the format of the mapping, got ${JSON.stringify(text)}`,
});

const bound = (reason: Refusal['reason'], time: number, side: string, text: string): Refusal => ({
  reason,
  detail: `expected ${formatTime(time)} or ${side}, got ${JSON.stringify(text)}`,
});

function readerOf({ format }: MappedTime): Reader {
  if (format === ISO) return isoTime;
  if (format === 'epoch-s' || format === 'epoch-ms') return epochReader(EPOCHS[format]);
  return patternReader(format);
}

const epochReader =
  (unit_ms: number): Reader =>
  (text) =>
    NUMBER.test(text) ? { at: Math.round(Number(text) * unit_ms), isInstant: true } : undefined;

/** Without an offset it is read as if it were UTC, and the zone settles it. */
function isoTime(text: string): ReadTime | undefined {
  const [, year, month, day, hour, minute, second = '00', fraction = '0', offset] = ISO_TIME.exec(text) ?? [];
  if (year === undefined) return undefined;
  const clock = Date.UTC(
    ...([+year, Number(month) - 1, Number(day), Number(hour), Number(minute), +second] as const),
  );
  // A month, day or hour that is none comes out as another.
  const same =
    new Date(clock).toISOString().slice(0, 19) === `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  if (!same) return undefined;
  const at = clock + Number(fraction.padEnd(3, '0').slice(0, 3));
  return offset === undefined ? { at, isInstant: false } : instantBy(at, offset);
}

function instantBy(at: number, offset: string): ReadTime | undefined {
  if (offset.toUpperCase() === 'Z') return { at, isInstant: true };
  const [hours, minutes] = [Number(offset.slice(1, 3)), Number(offset.slice(3).replace(':', ''))];
  if (!(hours <= 23 && minutes <= 59)) return undefined;
  const ahead = (hours * 60 + minutes) * 60_000;
  return { at: offset.startsWith('-') ? at + ahead : at - ahead, isInstant: true };
}

/** By the zone; what a change of the clocks gives twice or leaves out is refused unless the mapping settles it. */
function settler({ zone, repeated, skipped }: MappedTime): Settle {
  if (zone === undefined)
    return (_local, text) => ({
      reason: 'time-without-zone',
      detail: `expected a time with its offset, or "zone" in the mapping, got ${JSON.stringify(text)}`,
    });
  const clock = zoneClock(zone);
  return (local, text) => {
    const instant = clock(local);
    if (typeof instant === 'number') return instant;
    if (instant.kind === 'repeated')
      return repeated === 'refuse' ? twice(instant, text, zone) : instant[repeated];
    if (skipped === 'refuse') return never(text, zone);
    // By the offset of before the change the clock was not yet set forward, and the time is the later one.
    return skipped === 'before' ? instant.later : instant.earlier;
  };
}

const twice = ({ earlier, later }: Exclude<Instant, number>, text: string, zone: string): Refusal => ({
  reason: 'time-repeated',
  detail: `expected a time that came once in ${zone}, got ${JSON.stringify(text)}, which is ${formatTime(earlier)} and ${formatTime(later)}: "repeated" of the mapping settles it`,
});

const never = (text: string, zone: string): Refusal => ({
  reason: 'time-skipped',
  detail: `expected a time that there was in ${zone}, got ${JSON.stringify(text)}, which the clocks left out: "skipped" of the mapping settles it`,
});
