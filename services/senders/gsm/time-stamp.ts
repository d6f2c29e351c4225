/** Time stamps of the service centre: local time and its zone, 3GPP TS 23.040 section 9.2.3.11. */
import type { OctetReader } from './octets.js';

const QUARTER_ms = 15 * 60_000;

/** Two decimal digits with the first in the lower half; NaN where a half is no digit. */
function decimal(octet: number): number {
  const [first, second] = [octet & 0x0f, octet >> 4];
  return first <= 9 && second <= 9 ? first * 10 + second : Number.NaN;
}

/** The standard gives no century; short messages began in 1992. */
const yearOf = (twoDigits: number): number => (twoDigits >= 90 ? 1900 : 2000) + twoDigits;

/** Quarters of an hour east of Greenwich: bit 3 of the octet is the sign. */
function quartersOf(octet: number): number {
  const quarters = decimal(octet & 0xf7);
  return (octet & 0x08) === 0 ? quarters : -quarters;
}

/** @returns ms since the epoch; undefined for what is no time: some centres send zeros where they know none */
export function decodeTimeStamp(reader: OctetReader): number | undefined {
  const octets = [...reader.octets(7)];
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = octets.map(decimal);
  const quarters = quartersOf(octets[6] ?? 0);
  const local = Date.UTC(yearOf(year), month - 1, day, hour, minute, second);
  if (!(Number.isFinite(local) && Math.abs(quarters) <= 56)) return undefined;
  const back = new Date(local);
  const same = back.getUTCMonth() === month - 1 && back.getUTCDate() === day && back.getUTCHours() === hour;
  return same && minute < 60 && second < 60 ? local - quarters * QUARTER_ms : undefined;
}
