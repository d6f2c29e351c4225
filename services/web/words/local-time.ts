/** Times as they are typed: day and clock time in a zone, as `datetime-local` fields have them. */

const MINUTE_ms = 60_000;
const TYPED = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)/;

/** `2026-05-04T10:00` of a time. @param at ms since 1970 @param zone IANA name */
export const localText = (at: number, zone: string): string =>
  new Date(at + offset_ms(at, zone)).toISOString().slice(0, 'YYYY-MM-DDTHH:MM'.length);

/**
 * The time that was typed; NaN where it is none. An hour that a zone leaves out counts as the one after it.
 *
 * @param text `2026-05-04T10:00`
 * @param zone IANA name
 * @returns ms since 1970
 */
export function fromLocalText(text: string, zone: string): number {
  const [, year, month, day, hour, minute] = (TYPED.exec(text) ?? []).map(Number);
  const asUtc = Date.UTC(year ?? Number.NaN, (month ?? 0) - 1, day, hour, minute);
  if (!Number.isFinite(asUtc)) return Number.NaN;
  const near = asUtc - offset_ms(asUtc, zone);
  return asUtc - offset_ms(near, zone);
}

/** By how much the zone's clock is ahead of UTC at a time. */
function offset_ms(at: number, zone: string): number {
  const parts = new Intl.DateTimeFormat('en-GB', {
    ...{ timeZone: zone, hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric' },
    ...{ hour: 'numeric', minute: 'numeric' },
  }).formatToParts(at);
  const of = (type: Intl.DateTimeFormatPartTypes): number =>
    Number(parts.find((part) => part.type === type)?.value);
  const local = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'));
  return local - Math.floor(at / MINUTE_ms) * MINUTE_ms;
}
