/** A season through a watch. */
import { DAY_ms, HOUR_ms } from '../../core/model/time.js';
import type { Change, Watch } from '../../core/watch/watch.js';
import type { EvaluatedSeason } from './season.js';

export type DayChange = Change & {
  /** Days since the filling at which it was established. */
  readonly day: number;
};

export interface WatchedSeason {
  readonly changes: readonly DayChange[];
  /** Time of the processor that the watch took, ms. */
  readonly cpu_ms: number;
  /** Longest state of those kept every ten days, bytes. */
  readonly state_bytes: number;
}

const LOOK_h = 240;

export function watchSeason({ watched, hours, startAt }: EvaluatedSeason, watch: Watch): WatchedSeason {
  const bed = watch.open(watched);
  const changes: DayChange[] = [];
  let state_bytes = 0;
  const before = process.cpuUsage();
  hours.forEach((hour, index) => {
    const day = (hour.hour + HOUR_ms - startAt) / DAY_ms;
    for (const change of bed.step(hour).changes) changes.push({ ...change, day });
    if (index % LOOK_h === LOOK_h - 1) state_bytes = Math.max(state_bytes, bed.checkpoint().length);
  });
  const { user, system } = process.cpuUsage(before);
  return { changes, cpu_ms: (user + system) / 1000, state_bytes };
}
