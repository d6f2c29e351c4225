/** Hours of a bed, read some days at a time. */
import { DAY_ms } from '../core/model/time.js';
import type { BedHour } from '../core/watch/watch.js';
import type { BedHours } from './bed-hours.js';
import type { KnownBed } from './directory.js';

/** Hours read from the archive at a time: 20 probes at one reading a minute make 230,000 samples. */
const STRIDE_ms = 8 * DAY_ms;

export function* bedHours(hours: BedHours, known: KnownBed, from: number, to: number): Generator<BedHour> {
  for (let start = from; start < to; start += STRIDE_ms)
    yield* hours.read(known, start, Math.min(start + STRIDE_ms, to));
}
