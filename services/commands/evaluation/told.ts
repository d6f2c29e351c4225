/** What a watch told of a season: its episodes in days after the filling, each with the places it was given. */
import type { Place } from '../../core/model/alarm.js';
import { DAY_ms } from '../../core/model/time.js';
import { type TimedChange, toEpisodes } from '../../core/watch/episodes.js';
import type { Condition } from '../../core/watch/watch.js';

export interface Told extends Condition {
  readonly day: number;
  /** Null where it lasts to the end. */
  readonly endDay: number | null;
  /** Probes that its evidence named, first and after each refinement. */
  readonly named: readonly string[];
  /** Where it was said to be: at the raising, and after each refinement. */
  readonly places: readonly { readonly day: number; readonly place: Place }[];
}

const isAbout = (one: Condition, other: Condition): boolean =>
  one.kind === other.kind && one.action === other.action && one.subject === other.subject;

/** @param startAt of the season, ms */
export function toldOf(bed: string, startAt: number, changes: readonly TimedChange[]): Told[] {
  const dayOf = (at: number): number => (at - startAt) / DAY_ms;
  return toEpisodes(bed, [], changes).map((episode) => {
    const { kind, action, subject, raisedAt, clearedAt } = episode;
    const until = clearedAt ?? Number.POSITIVE_INFINITY;
    const said = changes
      .filter((change) => isAbout(change, episode) && change.at >= raisedAt && change.at < until)
      .flatMap((change) => (change.type === 'clear' ? [] : [change]));
    const places = said.flatMap(({ at, place }) => (place ? [{ day: dayOf(at), place }] : []));
    const named = said.flatMap(({ evidence: { probe } }) => (typeof probe === 'string' ? [probe] : []));
    const endDay = clearedAt === null ? null : dayOf(clearedAt);
    return { kind, action, subject, day: dayOf(raisedAt), endDay, named, places };
  });
}

export const isHeating = ({ kind, action }: Condition, asks: 'unpack' | 'check'): boolean =>
  kind === 'heating' && action === asks;
