/** Runs a watch over hours, with what it said and when. */
import { HOUR_ms } from '../../../services/core/model/time.js';
import type { TimedChange } from '../../../services/core/watch/episodes.js';
import { firstWatch } from '../../../services/core/watch/first-watch.js';
import type { BedHour, BedWatch, Judgement, WatchedBed } from '../../../services/core/watch/watch.js';
import { bedFor, dayOf, hoursOf, type Season } from './season.js';

export interface Run {
  readonly changes: TimedChange[];
  readonly judgements: ReadonlyMap<string, Judgement>[];
  readonly watch: BedWatch;
}

export function runOver(
  hours: readonly BedHour[],
  bed: WatchedBed,
  watch: BedWatch = firstWatch.open(bed),
): Run {
  const changes: TimedChange[] = [];
  const judgements: ReadonlyMap<string, Judgement>[] = [];
  for (const hour of hours) {
    const step = watch.step(hour);
    for (const change of step.changes) changes.push({ ...change, at: hour.hour + HOUR_ms });
    judgements.push(step.judgements);
  }
  return { changes, judgements, watch };
}

export const runSeason = (season: Season): Run => runOver(hoursOf(season), bedFor(season));

/** `raise heating/unpack day 27.5`, in order. */
export function saidIn({ changes }: Pick<Run, 'changes'>): string[] {
  return changes.map(({ type, kind, action, at }) => `${type} ${kind}/${action} day ${dayOf(at).toFixed(1)}`);
}
