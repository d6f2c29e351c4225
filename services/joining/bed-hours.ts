/**
 * Puts the hours of a bed together for its watch, from readings at rest and inspections.
 */
import type { Archive } from '../archive/index.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { BedHour, Sample } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import type { Calibrations } from './calibrations.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';

type ByProbe = ReadonlyMap<string, readonly Sample[]>;

const NOTHING: ByProbe = new Map();

/** Hours in order from a whole hour to another (not included), empty ones too. */
export class BedHours {
  readonly #archive: Archive;
  readonly #registry: Registry;
  readonly #calibrations: Calibrations;

  constructor(archive: Archive, registry: Registry, calibrations: Calibrations) {
    this.#archive = archive;
    this.#registry = registry;
    this.#calibrations = calibrations;
  }

  read(known: KnownBed, from: number, to: number): BedHour[] {
    const probes = this.#byHour(known.probes, (probe) => staysInBed(probe, known.bed.id), from, to);
    const shade = this.#byHour(known.shade, staysInShade, from, to);
    const inspections = this.#registry.inspections.between(known.bed.id, from, to);
    const all = [...known.probes, ...known.shade];
    const hours: BedHour[] = [];
    for (let hour = from; hour < to; hour += HOUR_ms)
      hours.push({
        hour,
        probes: probes.get(hour) ?? NOTHING,
        shade: shade.get(hour) ?? NOTHING,
        corrections: this.#calibrations.forHour(all, hour),
        inspections: inspections.filter(({ at }) => at >= hour && at < hour + HOUR_ms),
      });
    return hours;
  }

  /** What the probes measured while they stood there, by the start of the hour and by probe. */
  #byHour(
    probes: readonly KnownProbe[],
    staysOf: (probe: KnownProbe) => Stay[],
    from: number,
    to: number,
  ): Map<number, ByProbe> {
    const hours = new Map<number, Map<string, Sample[]>>();
    for (const probe of probes) {
      const stays = staysOf(probe);
      for (const sample of this.#archive.readings.samples(probe.key, from, to)) {
        if (!stays.some((stay) => sample.at >= stay.from && sample.at < stay.to)) continue;
        const hour = entry(hours, hourOf(sample.at), () => new Map<string, Sample[]>());
        entry(hour, probe.probe.id, (): Sample[] => []).push(sample);
      }
    }
    return hours;
  }
}

function entry<Key, Value>(map: Map<Key, Value>, key: Key, make: () => Value): Value {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}
