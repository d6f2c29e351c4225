/** When probes were put into a bed, moved in it, and taken out. */
import { placedSentence, takenOutSentence } from '../core/keeping/index.js';
import type { BedEvent, TimeSpan } from '../http/index.js';
import { type KnownBed, type KnownProbe, staysInBed } from './directory.js';

/** Of a site description, so that there are no more than its placements; in no order. */
export function placementEvents({ bed, probes }: KnownBed, { from, to }: TimeSpan): BedEvent[] {
  return probes.flatMap((probe) => ofProbe(probe, bed.id)).filter(({ at }) => at >= from && at < to);
}

function ofProbe(known: KnownProbe, bed: string): BedEvent[] {
  const { id: probe } = known.probe;
  const stays = staysInBed(known, bed);
  return stays.flatMap(({ from, to, placement }, at): BedEvent[] => {
    if (!placement) return [];
    const moved = stays[at - 1]?.to === from;
    const stayed = stays[at + 1]?.from === to;
    const kind = moved ? 'probe-moved' : 'probe-placed';
    const put = event(from, kind, probe, placedSentence(probe, placement, moved));
    if (stayed || !Number.isFinite(to)) return [put];
    return [put, event(to, 'probe-taken-out', probe, takenOutSentence(probe))];
  });
}

const event = (at: number, kind: BedEvent['kind'], probe: string, text: string): BedEvent => ({
  ...{ id: `${at}.${kind}.${probe}`, at, kind, text, about: { probe } },
});
