/** What is to be done at a bed, by how it stands in its season. */
import type { BedAtWork, Look } from '../api/types/work.js';
import type { Job } from './jobs.js';

export interface BedInSeason {
  readonly bed: BedAtWork;
  readonly look: Look | undefined;
}

/** Beds with their looks: first those to be unpacked today, then those that are due. */
export function bedsInSeason(beds: readonly BedAtWork[], looks: readonly Look[]): BedInSeason[] {
  const both = beds.map((bed) => ({ bed, look: looks.find((look) => look.bed === bed.id) }));
  return [0, 1, 2].flatMap((rank) => both.filter((one) => rankOf(one) === rank));
}

function rankOf({ look }: BedInSeason): number {
  if (!look?.due) return 2;
  return unpackOf(look) ? 0 : 1;
}

export const unpackOf = (look: Look): Look['reasons'][number] | undefined =>
  look.reasons.find(({ by }) => by === 'unpack');

/** Nobody said that it was filled, or no root is left in it. */
export const isEmpty = ({ bed, look }: BedInSeason): boolean =>
  bed.filled === null || (look !== undefined && look.dueAt === null);

export const fits = (job: Job, one: BedInSeason): boolean =>
  job.at === 'empty' ? isEmpty(one) : one.bed.filled !== null;
