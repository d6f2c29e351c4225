/** What a day of a probe's readings comes to: how many values, and a checksum of them with their times. */
import { createHash } from 'node:crypto';
import { QUANTITIES } from '../../core/model/quantity.js';
import { DAY_ms } from '../../core/model/time.js';
import type { StoredReading } from '../reading-store.js';

export interface DaySum {
  readonly values: number;
  /** SHA-256 of times, quantities and values in order, hexadecimal. */
  readonly checksum: string;
}

export const dayOf = (time: number): number => Math.floor(time / DAY_ms) * DAY_ms;

/** By start of the day in UTC, ms, in order. */
export function byDay(readings: readonly StoredReading[]): Map<number, StoredReading[]> {
  const days = new Map<number, StoredReading[]>();
  for (const reading of readings) {
    const day = dayOf(reading.time);
    const known = days.get(day);
    if (known) known.push(reading);
    else days.set(day, [reading]);
  }
  return days;
}

/**
 * Of readings in order of time.
 *
 * @param wanted only values of the times and quantities that these have: one side of a copy may have more
 */
export function sumOf(readings: readonly StoredReading[], wanted = readings): DaySum {
  const times = new Map(wanted.map((reading) => [reading.time, reading]));
  const hash = createHash('sha256');
  let values = 0;
  for (const reading of readings) {
    const asked = times.get(reading.time);
    if (!asked) continue;
    for (const quantity of QUANTITIES) {
      if (asked[quantity] === null || reading[quantity] === null) continue;
      values += 1;
      hash.update(`${reading.time} ${quantity} ${reading[quantity]}\n`);
    }
  }
  return { values, checksum: hash.digest('hex') };
}

export const isSame = (one: DaySum, other: DaySum): boolean =>
  one.values === other.values && one.checksum === other.checksum;
