/** Which probes stand in a bed in an hour. */
import type { BedPlacement } from '../model/site.js';
import type { WatchedBed } from './watch.js';

export interface PlacedProbe {
  readonly id: string;
  readonly placement: BedPlacement;
}

/** In order of id; none before the bed was filled. */
export function probesIn({ bed, placements }: WatchedBed, hour: number): PlacedProbe[] {
  if (hour < (bed.filled ?? hour)) return [];
  return [...placements.keys()].sort().flatMap((id): PlacedProbe[] => {
    const begun = placements.get(id)?.findLast((placement) => placement.from <= hour);
    return begun && hour < (begun.to ?? Number.POSITIVE_INFINITY) ? [{ id, placement: begun }] : [];
  });
}

/** A place in a few words, to tell whether it is still the same. */
export const placeKey = ({ id, placement: { x, y, depth, from } }: PlacedProbe): string =>
  [id, x, y, depth, from].join(' ');
