/** The two kinds of condition that the first watch raises for a bed. */
import type { Place } from '../model/alarm.js';
import { dampEvidence, heatingEvidence, lastExcess_C } from './evidence.js';
import { asksToUnpack } from './heating.js';
import { PARAMETERS } from './parameters.js';
import { placementAt } from './presence.js';
import type { Kind } from './raised.js';
import type { WatchedBed } from './watch.js';

function placeAt(watched: WatchedBed, id: string, hour: number): Place | null {
  const placement = placementAt(watched, id, hour);
  if (!placement) return null;
  const { x, y, depth } = placement;
  return { x, y, depth, radius: PARAMETERS.radius_cm };
}

/** @param hour start of the hour that is judged, ms */
export function kindsFor(watched: WatchedBed, hour: number): readonly Kind[] {
  const place = (id: string): Place | null => placeAt(watched, id, hour);
  return [
    {
      kind: 'heating',
      asks: (probe) => (asksToUnpack(probe) ? 'unpack' : probe.heating.check.open ? 'check' : null),
      strength: (probe) => lastExcess_C(probe) ?? Number.NEGATIVE_INFINITY,
      evidence: (id, probe) => heatingEvidence(id, probe, watched.thresholds),
      place,
    },
    {
      kind: 'damp',
      asks: ({ damp }) => (damp.unpack.open ? 'unpack' : damp.check.open ? 'check' : null),
      strength: ({ damp }) => damp.humidity_RH ?? Number.NEGATIVE_INFINITY,
      evidence: (id, probe) => dampEvidence(id, probe, watched.thresholds),
      place,
    },
  ];
}
