/**
 * From changes to episodes: one condition of a bed from its establishment to its end.
 */
import type { Episode } from '../model/alarm.js';
import type { Change, Condition } from './watch.js';

/** A change and the event time at which it was established: the end of its hour, ms. */
export type TimedChange = Change & { readonly at: number };

const keyOf = ({ kind, action, subject }: Condition): string => `${kind}/${action}/${subject}`;

/**
 * Folds changes into episodes.
 *
 * @param bed id of the bed
 * @param open the episodes that were open before the first change; at most one of a kind, action and
 *   subject
 * @param changes in order of time
 * @returns those that were open, refined and cleared where a change says so, then the new ones in order of raising. A
 *   second raise of what is open, and a refinement or clear of what is not, change nothing.
 */
export function toEpisodes(
  bed: string,
  open: readonly Episode[],
  changes: readonly TimedChange[],
): Episode[] {
  const episodes = [...open];
  const lasting = new Map(open.map((episode, index) => [keyOf(episode), index]));
  for (const change of changes) {
    const index = lasting.get(keyOf(change));
    const episode = index === undefined ? undefined : episodes[index];
    if (change.type === 'raise' && !episode) {
      lasting.set(keyOf(change), episodes.length);
      episodes.push(begun(bed, change));
    }
    if (change.type === 'refine' && episode && index !== undefined)
      episodes[index] = { ...episode, evidence: change.evidence, place: change.place };
    if (change.type === 'clear' && episode && index !== undefined) {
      lasting.delete(keyOf(change));
      episodes[index] = { ...episode, clearedAt: change.at };
    }
  }
  return episodes;
}

function begun(bed: string, change: TimedChange & { type: 'raise' }): Episode {
  const { kind, priority, action, subject, at, evidence, place } = change;
  return { bed, kind, priority, action, subject, raisedAt: at, clearedAt: null, evidence, place };
}
