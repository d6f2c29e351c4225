/** A season through a watch. */
import { HOUR_ms } from '../../core/model/time.js';
import type { TimedChange } from '../../core/watch/episodes.js';
import type { BedHour, Watch, WatchedBed } from '../../core/watch/watch.js';
import { threadTime_ms } from './thread-time.js';

export interface Cost {
  /** Time of the processor that the watch took, ms. */
  readonly cpu_ms: number;
  /** Longest state of those kept every ten days and at the end, bytes. */
  readonly state_bytes: number;
}

export interface WatchedSeason extends Cost {
  readonly changes: readonly TimedChange[];
}

const KEPT_EVERY_h = 240;

export function watchHours(watched: WatchedBed, hours: Iterable<BedHour>, watch: Watch): WatchedSeason {
  const bed = watch.open(watched);
  const changes: TimedChange[] = [];
  let state_bytes = 0;
  let count = 0;
  const keep = (): void => {
    state_bytes = Math.max(state_bytes, Buffer.byteLength(bed.checkpoint()));
  };
  const before = threadTime_ms();
  for (const hour of hours) {
    for (const change of bed.step(hour).changes) changes.push({ ...change, at: hour.hour + HOUR_ms });
    count += 1;
    if (count % KEPT_EVERY_h === 0) keep();
  }
  keep();
  return { changes, cpu_ms: threadTime_ms() - before, state_bytes };
}
