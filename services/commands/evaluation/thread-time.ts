/** What a piece of work costs, beside whatever else runs in this process and on this machine. */
import { readFileSync } from 'node:fs';

/** Linux: "time spent on the cpu (in nanoseconds)" comes first. Source: kernel documentation, sched-stats. */
const OWN_TIME = '/proc/thread-self/schedstat';

/** Time of the processor that this thread has had, ms; where the system does not tell it, time gone by. */
export function threadTime_ms(): number {
  try {
    const time_ns = Number(readFileSync(OWN_TIME, 'utf8').split(' ')[0]);
    if (time_ns > 0) return time_ns / 1e6;
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
  }
  return performance.now();
}
