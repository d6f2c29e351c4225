/** What was planted in a scenario, where, and what else was done to it. */

import { closedAt } from './openings.js';
import { seedOfSeries } from './random.js';
import { rotsUntil } from './rot.js';
import type { Scenario, SimulatedBed } from './scenario.js';
import type { Opening } from './scenario-bed.js';
import type { ProbeFault } from './scenario-faults.js';
import { distance_cm, type Place, truePlaces } from './true-places.js';

interface InBed {
  readonly bed: string;
  /** Days after the filling. */
  readonly startDay: number;
}

/** The probe that truly is nearest when it starts; null for a bed without probes. */
type Nearest = { readonly probe: string; readonly distance_cm: number } | null;

/** cm; a leak comes from the top. */
interface Placed extends InBed {
  readonly place: Place;
  readonly nearest: Nearest;
}

export type Truth =
  | (Placed & {
      readonly kind: 'rot';
      /** When it is taken out by a repacking; null where it stays. */
      readonly endDay: number | null;
      readonly grown_W: number;
      readonly growth_days: number;
    })
  | (Placed & { readonly kind: 'leak'; readonly litres_per_day: number })
  | (InBed & { readonly kind: 'damping'; readonly litres_per_day: number })
  | (InBed & { readonly kind: 'opening'; readonly endDay: number } & Omit<Opening, 'day' | 'hours'>)
  | (InBed & { readonly kind: 'sand-taken'; readonly depth: number })
  | {
      readonly kind: 'fault';
      /** Null for a probe in the shade. */
      readonly bed: string | null;
      readonly startDay: number;
      /** Null where it lasts to the end. */
      readonly endDay: number | null;
      readonly probe: string;
      readonly fault: ProbeFault['kind'];
    };

/**
 * All that begins within the season, bed by bed, faults of probes last.
 *
 * @param seasonSeed of the season: where probes truly are depends on it where a scenario varies
 */
export function truthOf(scenario: Scenario, seasonSeed: number): Truth[] {
  const seed = seedOfSeries(seasonSeed, scenario.series);
  return [
    ...scenario.beds.flatMap((bed) => [
      ...placedIn(scenario, bed, seed),
      ...dampingOf(bed),
      ...handlingOf(bed),
    ]),
    ...faultsOf(scenario),
  ].filter(({ startDay }) => startDay < scenario.days);
}

function placedIn(scenario: Scenario, bed: SimulatedBed, seed: number): Truth[] {
  const placed = (startDay: number, place: Place): Placed => ({
    bed: bed.id,
    startDay,
    place,
    nearest: nearestTo(place, truePlaces(scenario, bed, seed, startDay)),
  });
  const rots = rotsUntil(bed).map(({ rot, endDay }): Truth => {
    const { startDay, x, y, depth, grown_W, growth_days } = rot;
    return {
      kind: 'rot',
      ...placed(startDay, { x, y, depth }),
      endDay: endDay < scenario.days ? endDay : null,
      grown_W,
      growth_days,
    };
  });
  if (!bed.leak) return rots;
  const { startDay, x, y, litres_per_day } = bed.leak;
  return [...rots, { kind: 'leak', ...placed(startDay, { x, y, depth: 0 }), litres_per_day }];
}

function nearestTo(place: Place, probes: ReadonlyMap<string, Place>): Nearest {
  let nearest: Nearest = null;
  for (const [probe, at] of probes) {
    const distance = distance_cm(place, at);
    if (!(nearest && nearest.distance_cm <= distance)) nearest = { probe, distance_cm: distance };
  }
  return nearest;
}

const dampingOf = ({ id, damping }: SimulatedBed): Truth[] =>
  damping ? [{ kind: 'damping', bed: id, ...damping }] : [];

const handlingOf = ({ id, openings, sandTaken }: SimulatedBed): Truth[] => [
  ...openings.map((opening): Truth => {
    const { day, hours: _, ...how } = opening;
    return { kind: 'opening', bed: id, startDay: day, endDay: closedAt(opening), ...how };
  }),
  ...(sandTaken
    ? [{ kind: 'sand-taken' as const, bed: id, startDay: sandTaken.day, depth: sandTaken.depth }]
    : []),
];

const faultsOf = ({ beds, days, faults }: Scenario): Truth[] =>
  faults.probes.map((fault) => {
    const end = fault.startDay + (fault.days ?? Number.POSITIVE_INFINITY);
    return {
      kind: 'fault',
      bed: beds.find(({ probes }) => probes.some(({ id }) => id === fault.probe))?.id ?? null,
      startDay: fault.startDay,
      endDay: end < days ? end : null,
      probe: fault.probe,
      fault: fault.kind,
    };
  });
