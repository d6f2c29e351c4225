/**
 * One run of a bed's watch through hours in order: writes what it says of readings and the states to go on from,
 * and gathers what it has established.
 */
import type { Archive } from '../archive/index.js';
import type { Episode } from '../core/model/alarm.js';
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import { type TimedChange, toEpisodes } from '../core/watch/episodes.js';
import type { BedHour, BedWatch, Change, StepResult } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import { covers, type KnownBed, type KnownProbe, staysInBed } from './directory.js';

export interface Stores {
  readonly archive: Archive;
  readonly registry: Registry;
}

/** To ten-thousandths of a degree: more digits say nothing. */
const rounded = (value: number | undefined): number | null =>
  value === undefined ? null : Math.round(value * 1e4) / 1e4;

/** The end of the hour; where the bed was packed anew, what that ends is over by then. */
function timeOf({ type }: Change, { hour, inspections }: BedHour): number {
  const repacked = inspections.find((inspection) => inspection.repacked);
  return repacked && type === 'clear' ? Math.max(repacked.at, hour + 1) : hour + HOUR_ms;
}

export class Judging {
  /** What was established so far, in order. */
  readonly changes: TimedChange[];
  readonly #known: KnownBed;
  readonly #watch: BedWatch;
  readonly #stores: Stores;
  readonly #probes: ReadonlyMap<string, KnownProbe>;
  /** Episodes that were open after the first so many changes. */
  #open: readonly Episode[];
  #folded: number;

  /**
   * @param open the episodes that were open before the first hour, as they were known then
   * @param changes what was established before, of which `open` is what is left
   */
  constructor(
    known: KnownBed,
    watch: BedWatch,
    open: readonly Episode[],
    stores: Stores,
    changes: readonly TimedChange[] = [],
  ) {
    this.changes = [...changes];
    this.#folded = changes.length;
    this.#known = known;
    this.#watch = watch;
    this.#stores = stores;
    this.#open = open;
    this.#probes = new Map([...known.shade, ...known.probes].map((probe) => [probe.probe.id, probe]));
  }

  /** Judges the next hour; a day's last hour leaves a state to go on from. */
  take(hour: BedHour): void {
    const result = this.#watch.step(hour);
    for (const change of result.changes) this.changes.push({ ...change, at: timeOf(change, hour) });
    this.#writeJudgements(hour.hour, result);
    this.#writeFlags(hour.hour, result);
    const end = hour.hour + HOUR_ms;
    if (end % DAY_ms === 0) this.#keepState(end);
  }

  /** Only of probes that stood in the bed for the whole hour: one that was moved is judged in neither place. */
  #writeJudgements(hour: number, { judgements }: StepResult): void {
    for (const [id, { expected_C, band_C, excess_C }] of judgements) {
      const probe = this.#probes.get(id);
      if (!probe || !covers(staysInBed(probe, this.#known.bed.id), hour)) continue;
      const [expected, band, excess] = [rounded(expected_C), rounded(band_C), rounded(excess_C)];
      this.#stores.archive.judged.put(probe.key, { hour, expected, band, excess });
    }
  }

  #writeFlags(hour: number, { flags }: StepResult): void {
    for (const [id, found] of flags) {
      const probe = this.#probes.get(id);
      if (probe) this.#stores.archive.flags.put(this.#known.bed.id, probe.key, hour, found);
    }
  }

  #keepState(hour: number): void {
    const bed = this.#known.bed.id;
    const episodes = toEpisodes(bed, this.#open, this.changes.slice(this.#folded));
    this.#open = episodes.filter(({ clearedAt }) => clearedAt === null);
    this.#folded = this.changes.length;
    const state = this.#watch.checkpoint();
    this.#stores.registry.watch.keepCheckpoint(bed, { hour, state, open: this.#open });
  }
}
