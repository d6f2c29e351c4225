/**
 * Puts the hours of a bed together for its watch, from readings at rest and inspections.
 */
import type { Archive, HourSums } from '../archive/index.js';
import { HOUR_ms } from '../core/model/time.js';
import type { BedHour, HourSummary, ProbeHour } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';

/** Sums are whole ten-thousandths. */
const UNIT = 10_000;

type Sum = HourSums['temperature'];

const summary = (sum: Sum): HourSummary => ({
  count: sum.count,
  mean: sum.sum / sum.count / UNIT,
  min: sum.min,
  max: sum.max,
});

function probeHour({ temperature, humidity }: Pick<HourSums, 'temperature' | 'humidity'>): ProbeHour {
  return {
    ...(temperature.count > 0 && { temperature: summary(temperature) }),
    ...(humidity.count > 0 && { humidity: summary(humidity) }),
  };
}

function together(one: Sum, other: Sum): Sum {
  if (one.count === 0) return other;
  if (other.count === 0) return one;
  return {
    count: one.count + other.count,
    sum: one.sum + other.sum,
    min: Math.min(one.min, other.min),
    max: Math.max(one.max, other.max),
  };
}

/** Whether the probe stood there during the whole hour: an hour in which it was moved belongs to neither place. */
const covers = (stays: readonly Stay[], hour: number): boolean =>
  stays.some((stay) => stay.from <= hour && stay.to >= hour + HOUR_ms);

/** Hours in order from a whole hour to another (not included), empty ones too. */
export class BedHours {
  readonly #archive: Archive;
  readonly #registry: Registry;

  constructor(archive: Archive, registry: Registry) {
    this.#archive = archive;
    this.#registry = registry;
  }

  read(known: KnownBed, from: number, to: number): BedHour[] {
    const probes = this.#probeHours(known, from, to);
    const shade = this.#shadeHours(known.shade, from, to);
    const inspections = this.#registry.inspections.between(known.bed.id, from, to);
    const hours: BedHour[] = [];
    for (let hour = from; hour < to; hour += HOUR_ms) {
      const inShade = shade.get(hour);
      hours.push({
        hour,
        probes: probes.get(hour) ?? NOTHING,
        ...(inShade && { shade: probeHour(inShade) }),
        inspections: inspections.filter(({ at }) => at >= hour && at < hour + HOUR_ms),
      });
    }
    return hours;
  }

  #probeHours(known: KnownBed, from: number, to: number): Map<number, Map<string, ProbeHour>> {
    const hours = new Map<number, Map<string, ProbeHour>>();
    for (const probe of known.probes) {
      const stays = staysInBed(probe, known.bed.id);
      for (const sums of this.#archive.hours.sums(probe.key, from, to)) {
        if (!covers(stays, sums.hour)) continue;
        const hour = hours.get(sums.hour) ?? new Map<string, ProbeHour>();
        hours.set(sums.hour, hour.set(probe.probe.id, probeHour(sums)));
      }
    }
    return hours;
  }

  #shadeHours(probes: readonly KnownProbe[], from: number, to: number): Map<number, HourSums> {
    const hours = new Map<number, HourSums>();
    for (const probe of probes) {
      const stays = staysInShade(probe);
      for (const sums of this.#archive.hours.sums(probe.key, from, to)) {
        if (!covers(stays, sums.hour)) continue;
        const before = hours.get(sums.hour);
        hours.set(
          sums.hour,
          before
            ? {
                hour: sums.hour,
                temperature: together(before.temperature, sums.temperature),
                humidity: together(before.humidity, sums.humidity),
              }
            : sums,
        );
      }
    }
    return hours;
  }
}

const NOTHING: ReadonlyMap<string, ProbeHour> = new Map();
