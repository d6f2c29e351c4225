/**
 * A bed's watch that must begin before the time from which readings are here one by one: it goes through hourly means
 * there, so that it knows the bed, and what was said of that time stands.
 */
import type { Episode } from '../core/model/alarm.js';
import { HOUR_ms } from '../core/model/time.js';
import { type TimedChange, toEpisodes } from '../core/watch/episodes.js';
import type { BedHour, BedWatch, Condition } from '../core/watch/watch.js';

/** What is open and over at the mark, from which on hours are judged again. */
export interface AtMark {
  readonly open: readonly Episode[];
  readonly ended: readonly TimedChange[];
}

export interface Passed {
  readonly bed: string;
  readonly watch: BedWatch;
  /** The episodes that were open before the first hour, as the watch knew them. */
  readonly open: readonly Episode[];
}

/** Takes the watch through hours without writing anything. @returns what it found open at their end */
export function passHours({ bed, watch, open }: Passed, hours: Iterable<BedHour>): Episode[] {
  const changes: TimedChange[] = [];
  for (const hour of hours)
    for (const change of watch.step(hour).changes) changes.push({ ...change, at: hour.hour + HOUR_ms });
  return toEpisodes(bed, open, changes).filter(({ clearedAt }) => clearedAt === null);
}

/**
 * What people know at the mark, brought in line with what the watch knows: what only they know ends there, what only
 * the watch knows begins there.
 */
export function atMark(mark: number, told: readonly Episode[], seen: readonly Episode[]): AtMark {
  const ended = told
    .filter((episode) => !seen.some((other) => isSame(other, episode)))
    .map(({ kind, action, subject }) => ({ type: 'clear', kind, action, subject, at: mark }) as const);
  const begun = seen
    .filter((episode) => !told.some((other) => isSame(other, episode)))
    .map((episode) => ({ ...episode, type: 'raise', at: mark }) as const);
  return { open: told, ended: [...ended, ...begun] };
}

const isSame = (one: Condition, other: Condition): boolean =>
  one.kind === other.kind && one.action === other.action && one.subject === other.subject;
