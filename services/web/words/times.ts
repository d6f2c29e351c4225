/** Times as people of the site say them: in the site's zone, in the language of this device. */
import { calendarOf } from '../../core/model/languages.js';
import { language, locale } from './language.js';

const MINUTE_ms = 60_000;
const HOUR_ms = 60 * MINUTE_ms;
const DAY_ms = 24 * HOUR_ms;

/** The widest unit first, and from how many milliseconds it is used. */
const UNITS: readonly (readonly [unit: Intl.RelativeTimeFormatUnit, length_ms: number, from_ms: number])[] = [
  ['day', DAY_ms, 2 * DAY_ms],
  ['hour', HOUR_ms, 2 * HOUR_ms],
  ['minute', MINUTE_ms, MINUTE_ms],
];

/** So that a page that is opened without network says times of the site from the first. */
const KEPT = 'sandlarder.zone';

let zone: string | undefined;
let deviceZone: string | undefined;
useZone(globalThis.localStorage?.getItem(KEPT) ?? '');

/** Times are said in this zone from now on (IANA name). Where the browser does not know it, in the device's own. */
export function useZone(name: string): void {
  if (name === '' || name === zone) return;
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    zone = name;
    globalThis.localStorage?.setItem(KEPT, name);
  } catch {
    zone = undefined;
  }
}

/** The zone that was told, here or on an earlier visit. */
export const zoneTold = (): string | undefined => zone;

/** The zone in force: the site's, or the device's where none was told. */
export function zoneNow(): string {
  deviceZone ??= Intl.DateTimeFormat().resolvedOptions().timeZone;
  return zone ?? deviceZone;
}

const asTime = (at: string | number): number => (typeof at === 'number' ? at : Date.parse(at));

/** Whatever the device has: 24 hours, these digits, and below the calendar of the messages in this language. */
const WRITTEN = { numberingSystem: 'latn', hourCycle: 'h23' } as const;

const calendars = new Map<string, string>();

/** A browser that has no months of the calendar would say their numbers, which could be taken for those of another. */
function calendarHere(tag: string): string {
  const wanted = calendarOf(language());
  const month = new Intl.DateTimeFormat(tag, { calendar: wanted, month: 'short' }).format(0);
  return /\p{L}{2}/u.test(month) ? wanted : 'gregory';
}

/** Making one takes longer than a hundred uses of it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function format(at: string | number, options: Intl.DateTimeFormatOptions): string {
  const tag = locale();
  const calendar = calendars.get(tag) ?? calendarHere(tag);
  calendars.set(tag, calendar);
  const whole = { ...options, ...WRITTEN, calendar, ...(zone ? { timeZone: zone } : {}) };
  const id = `${tag} ${JSON.stringify(whole)}`;
  const known = formats.get(id) ?? new Intl.DateTimeFormat(tag, whole);
  formats.set(id, known);
  return known.format(asTime(at));
}

/** Day and clock time. @param at ISO 8601, or ms since 1970 */
export const dayAndTime = (at: string | number): string =>
  format(at, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' });

/** The day without its year, as under an axis. */
export const dayAndMonth = (at: string | number): string => format(at, { day: 'numeric', month: 'short' });

/** The day alone, with its year. */
export const dayOf = (at: string | number): string =>
  format(at, { day: 'numeric', month: 'short', year: 'numeric' });

/** Day, year and clock time, for what may be of another year. */
export const wholeTime = (at: string | number): string =>
  format(at, {
    ...{ day: 'numeric', month: 'short', year: 'numeric' },
    ...{ hour: '2-digit', minute: '2-digit' },
  });

export const clockTime = (at: string | number): string => format(at, { hour: '2-digit', minute: '2-digit' });

/** With the day of the week, to be held against a calendar on the wall: what was understood of a time that was typed. */
export const timeInFull = (at: string | number): string =>
  format(at, {
    ...{ weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' },
    ...{ hour: '2-digit', minute: '2-digit' },
  });

/** From so far on nobody counts the days: the day itself is said, ms. */
const LONG_ms = 28 * DAY_ms;

export const isLongAgo = (at: string | number, now: number = Date.now()): boolean =>
  Math.abs(asTime(at) - now) >= LONG_ms;

/** How long ago, or how far ahead: "3 hours ago"; the day where that is far. @param now ms since 1970 */
export function ago(at: string | number, now: number = Date.now()): string {
  if (isLongAgo(at, now)) return dayOf(at);
  const distance = asTime(at) - now;
  const [unit, length] = UNITS.find(([, , from]) => Math.abs(distance) >= from) ?? ['minute', MINUTE_ms];
  return relativeIn(locale()).format(Math.round(distance / length), unit);
}

const relatives = new Map<string, Intl.RelativeTimeFormat>();

/** Making one takes a cheap phone as long as drawing a card. */
function relativeIn(tag: string): Intl.RelativeTimeFormat {
  const made = relatives.get(tag) ?? new Intl.RelativeTimeFormat(tag, { numeric: 'auto' });
  relatives.set(tag, made);
  return made;
}
