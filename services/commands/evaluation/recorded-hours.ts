/** The hours of beds, put together from recorded readings as the service puts them together from its database. */
import { SandlarderError } from '../../core/errors.js';
import { DAY_ms, HOUR_ms, hourOf } from '../../core/model/time.js';
import type { BedHour, Sample } from '../../core/watch/watch.js';
import {
  type KnownBed,
  type KnownProbe,
  type Stay,
  staysInBed,
  staysInShade,
} from '../../joining/directory.js';

/** History of the shade from before the bed's first reading that the watch is given. */
const SHADE_BEFORE_ms = 10 * DAY_ms;
/** From a bed's first reading to its last at the most: one reading with a broken clock would make a century of hours. */
const MOST_days = 1100;

/** By probe: its readings in order of time, each time once. */
export type Recorded = ReadonlyMap<string, readonly Sample[]>;

type ByHour = ReadonlyMap<number, ReadonlyMap<string, readonly Sample[]>>;

const NOTHING: ReadonlyMap<string, readonly Sample[]> = new Map();

function during(samples: readonly Sample[], stays: readonly Stay[]): Sample[] {
  return samples.filter(({ at }) => stays.some(({ from, to }) => at >= from && at < to));
}

function byHour(
  probes: readonly KnownProbe[],
  staysOf: (probe: KnownProbe) => Stay[],
  recorded: Recorded,
): ByHour {
  const hours = new Map<number, Map<string, Sample[]>>();
  for (const known of probes)
    for (const sample of during(recorded.get(known.probe.id) ?? [], staysOf(known))) {
      const hour = hours.get(hourOf(sample.at)) ?? new Map<string, Sample[]>();
      hours.set(hourOf(sample.at), hour);
      const own = hour.get(known.probe.id) ?? [];
      hour.set(known.probe.id, own);
      own.push(sample);
    }
  return hours;
}

const least = (hours: ByHour, notBefore: number): number =>
  [...hours.keys()].reduce(
    (first, hour) => (hour >= notBefore ? Math.min(first, hour) : first),
    Number.POSITIVE_INFINITY,
  );

/**
 * A bed's hours from its first reading (or some days earlier, where the shade was measured by then) to its last;
 * none where nothing was measured in it.
 *
 * @throws SandlarderError LIMIT_EXCEEDED where its readings lie years apart
 */
export function recordedHours(known: KnownBed, recorded: Recorded): BedHour[] {
  const probes = byHour(known.probes, (probe) => staysInBed(probe, known.bed.id), recorded);
  if (probes.size === 0) return [];
  const shade = byHour(known.shade, staysInShade, recorded);
  const first = least(probes, 0);
  const last = [...probes.keys()].reduce((latest, hour) => Math.max(latest, hour), first);
  if (!(last - first <= MOST_days * DAY_ms))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `bed ${known.bed.id}: expected readings of at most ${MOST_days} days, got ${Math.round((last - first) / DAY_ms)}`,
    );
  const from = Math.min(first, least(shade, first - SHADE_BEFORE_ms));
  return Array.from({ length: (last - from) / HOUR_ms + 1 }, (_, index) => {
    const hour = from + index * HOUR_ms;
    const measured = { probes: probes.get(hour) ?? NOTHING, shade: shade.get(hour) ?? NOTHING };
    return { hour, ...measured, inspections: [] };
  });
}
