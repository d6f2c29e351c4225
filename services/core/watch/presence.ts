/**
 * Which probes of a bed count, and since when: a probe that was put elsewhere, a bed that was filled or packed
 * anew begin without a past.
 */

import type { BedPlacement } from '../model/site.js';
import { HOUR_ms } from '../model/time.js';
import { PARAMETERS } from './parameters.js';
import { newProbe, type WatchState } from './state.js';
import type { BedHour, WatchedBed } from './watch.js';

/** Where a probe stands in the bed in an hour; undefined while it is not in it or the bed is not filled. */
export function placementAt(
  { bed, placements }: WatchedBed,
  id: string,
  hour: number,
): BedPlacement | undefined {
  if (hour < (bed.filled ?? hour)) return undefined;
  const begun = placements.get(id)?.findLast((placement) => placement.from <= hour);
  return begun && hour < (begun.to ?? Number.POSITIVE_INFINITY) ? begun : undefined;
}

const inWords = ({ x, y, depth, from }: BedPlacement): string => [x, y, depth, from].join(' ');

/** Gives every probe that stands in the bed its state, in order of id, and drops those that do not. */
export function placeProbes(state: WatchState, watched: WatchedBed, hour: number): void {
  const before = state.probes;
  const begun = new Set<string>();
  state.probes = new Map();
  for (const id of [...watched.placements.keys()].sort()) {
    const placement = placementAt(watched, id, hour);
    if (!placement) continue;
    const known = before.get(id);
    const standsThere = known !== undefined && known.placement === inWords(placement);
    if (!standsThere) begun.add(id);
    state.probes.set(id, standsThere ? known : newProbe(inWords(placement)));
  }
  if (begun.size > 0) forgetNeighbours(state, begun);
}

/** What was learned of a neighbour holds only where it stood. */
function forgetNeighbours({ probes }: WatchState, begun: ReadonlySet<string>): void {
  for (const { baseline } of probes.values())
    if (baseline) baseline.peers = baseline.peers.filter(([id]) => !begun.has(id));
}

/** From when on a probe measures sand that has come to rest, ms. */
export function settledAt(state: WatchState, { bed }: WatchedBed, { from }: BedPlacement): number {
  const disturbedAt = Math.max(bed.filled ?? 0, from, state.repackedAt);
  return disturbedAt + PARAMETERS.settling_days * 24 * HOUR_ms;
}

/** A bed packed anew forgets; a bed that was opened is not judged until its sand has come to rest. */
export function takeInspections(state: WatchState, { hour, inspections }: BedHour): void {
  for (const { at, opened, repacked } of inspections) {
    if (opened || repacked) state.heldTo = hour + HOUR_ms + PARAMETERS.held_h * HOUR_ms;
    if (!repacked) continue;
    state.repackedAt = at;
    state.probes = new Map();
    state.basis = null;
  }
}
