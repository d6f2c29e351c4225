/** Times as people of the site say them: in the site's zone, in the language of this device. */
import { locale } from './language.js';

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

/**
 * The clock that fields for times show on this device, whichever language the page is read in: beside "13:00" in a field
 * "1:00 PM" would be another.
 *
 * @param device its language; what the browser is in where absent
 */
export function clockOf(device?: string): 'h12' | 'h23' {
  const { hourCycle } = new Intl.DateTimeFormat(device, { hour: 'numeric' }).resolvedOptions();
  return hourCycle === 'h11' || hourCycle === 'h12' ? 'h12' : 'h23';
}

let clock: 'h12' | 'h23' | undefined;

function clockHere(): 'h12' | 'h23' {
  clock ??= clockOf();
  return clock;
}

/** Making one takes longer than a hundred uses of it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function format(at: string | number, options: Intl.DateTimeFormatOptions): string {
  const whole = { ...options, ...(zone ? { timeZone: zone } : {}) };
  const id = `${locale()} ${JSON.stringify(whole)}`;
  const known = formats.get(id) ?? new Intl.DateTimeFormat(locale(), whole);
  formats.set(id, known);
  return known.format(asTime(at));
}

/** Day and clock time. @param at ISO 8601, or ms since 1970 */
export const dayAndTime = (at: string | number): string =>
  format(at, { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', hourCycle: clockHere() });

/** The day without its year, as under an axis. */
export const dayAndMonth = (at: string | number): string => format(at, { day: 'numeric', month: 'short' });

/** The day alone, with its year. */
export const dayOf = (at: string | number): string =>
  format(at, { day: 'numeric', month: 'short', year: 'numeric' });

/** Day, year and clock time, for what may be of another year. */
export const wholeTime = (at: string | number): string =>
  format(at, {
    ...{ day: 'numeric', month: 'short', year: 'numeric' },
    ...{ hour: '2-digit', minute: '2-digit', hourCycle: clockHere() },
  });

export const clockTime = (at: string | number): string =>
  format(at, { hour: '2-digit', minute: '2-digit', hourCycle: clockHere() });

/** How long ago, or how far ahead: "3 hours ago". @param now ms since 1970 */
export function ago(at: string | number, now: number = Date.now()): string {
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
