/**
 * What a running service knows of its sites, and the transactions that change it.
 *
 * One instance owns the directory and a watcher for every bed. `inTransaction` is the only way to write: on
 * failure everything in memory is taken anew from what is at rest.
 */
import { type Archive, type Database, isStoreError } from '../archive/index.js';
import { DAY_ms } from '../core/model/time.js';
import type { Watch } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import type { AlarmKeeper } from './alarm-keeper.js';
import { BedHours } from './bed-hours.js';
import { BedWatcher } from './bed-watcher.js';
import { Calibrations } from './calibrations.js';
import { Changes } from './changes.js';
import { Directory, type KnownProbe } from './directory.js';

export interface StationParts {
  readonly database: Database;
  readonly archive: Archive;
  readonly registry: Registry;
  readonly watch: Watch;
  readonly alarms: AlarmKeeper;
  /** Told of what becomes of each transaction; gives an error of the store in words. */
  readonly store?: { works(): void; failed(error: unknown): Error | undefined } | undefined;
}

/** Hours that are judged while somebody waits for an answer: states of the last three days are kept. */
const AT_ONCE_h = 72;

/** Event time that is judged again in one transaction, ms: about a second of work, so that other writers have their turn. */
const PIECE_ms = 16 * DAY_ms;

/** Watches that stand in memory at a time: 1 to 2 MB each. Those that judged longest ago go on from what is at rest. */
const MOST_AWAKE = 64;

/** Benches that are looked through for a probe. */
const MOST_OPEN_BENCHES = 1000;

export class Station {
  readonly archive: Archive;
  readonly registry: Registry;
  readonly calibrations: Calibrations;
  /** Told of what changes, so that who shows it asks anew. */
  readonly changes = new Changes();
  readonly #parts: StationParts;
  readonly #hours: BedHours;
  /** By bed: why its watch cannot go on. */
  readonly failures = new Map<string, string>();
  #directory = new Directory([], () => 0);
  #watchers = new Map<string, BedWatcher>();
  /** By site: the watchers of beds that see its shade. */
  #bySite = new Map<string, BedWatcher[]>();
  #touched = new Set<BedWatcher>();
  /** The one that judged last comes last. */
  readonly #awake = new Set<BedWatcher>();
  #revision = -1;
  /** By site and probe: since when it lies on a bench, ms. */
  #onBench: ReadonlyMap<string, number> | undefined;

  constructor(parts: StationParts) {
    this.#parts = parts;
    this.archive = parts.archive;
    this.registry = parts.registry;
    this.calibrations = new Calibrations(parts.registry);
    this.#hours = new BedHours(parts.archive, parts.registry, this.calibrations);
  }

  get directory(): Directory {
    return this.#directory;
  }

  get watchers(): ReadonlyMap<string, BedWatcher> {
    return this.#watchers;
  }

  /**
   * Runs the work in one transaction, judges what follows from it, and keeps memory in line with the file.
   *
   * @param options whether what can be judged is judged at once, or written down and judged later
   */
  inTransaction<Result>(
    work: () => Result,
    { judged = 'at once' }: { readonly judged?: 'at once' | 'later' } = {},
  ): Result {
    const before = this.#directory;
    try {
      const result = this.#parts.database
        .transaction(() => {
          this.refresh();
          const result = work();
          this.#follow(judged === 'later');
          return result;
        })
        .immediate();
      this.#parts.store?.works();
      return result;
    } catch (error) {
      this.#directory = before;
      this.#forget();
      throw this.#parts.store?.failed(error) ?? error;
    } finally {
      this.#touched.clear();
    }
  }

  /** Whether a site description was loaded since the last look. */
  get outdated(): boolean {
    return this.registry.sites.revision() !== this.#revision;
  }

  /** Takes in site descriptions that were loaded since the last look, whoever loaded them. */
  refresh(): void {
    const revision = this.registry.sites.revision();
    if (revision === this.#revision) return;
    this.#directory = new Directory(this.registry.sites.descriptions(), (site, probe) =>
      this.archive.keys.keyOf(site, probe),
    );
    this.#watchers = new Map();
    this.#awake.clear();
    this.#bySite = new Map();
    for (const [id, known] of this.#directory.beds) {
      const watcher = new BedWatcher(known, { ...this.#parts, hours: this.#hours });
      this.#watchers.set(id, watcher);
      const ofSite = this.#bySite.get(known.site.id) ?? [];
      this.#bySite.set(known.site.id, [...ofSite, watcher]);
      if (watcher.due) this.#touched.add(watcher);
    }
    this.#revision = revision;
    this.#noteDescribed();
  }

  #noteDescribed(): void {
    this.changes.whole('site');
    this.changes.whole('probes');
    for (const bed of this.#directory.beds.keys()) this.changes.bed(bed);
  }

  /** Takes note of a reading that is new: the watches that see it will look at it. */
  noteReading(known: KnownProbe, time: number): void {
    for (const stay of known.stays) {
      if (!(time >= stay.from && time < stay.to)) continue;
      if (stay.placement) {
        const watcher = this.#watchers.get(stay.placement.bed);
        watcher?.noteReading(time);
        if (watcher) this.#touch(watcher);
      } else
        for (const watcher of this.#bySite.get(known.site) ?? []) {
          watcher.noteShade(time);
          this.#touch(watcher);
        }
    }
  }

  #touch(watcher: BedWatcher): void {
    this.#touched.add(watcher);
    this.changes.readings(watcher.known.bed.id);
  }

  /** Since when a probe lies on a bench, ms; undefined where it does not: its readings are kept wherever it stands. */
  benchSince(site: string, probe: string): number | undefined {
    this.#onBench ??= new Map(
      this.registry.benches
        .list({ state: 'open', limit: MOST_OPEN_BENCHES })
        .flatMap((bench) => bench.probes.map((id) => [`${bench.site}/${id}`, bench.startedAt] as const)),
    );
    return this.#onBench.get(`${site}/${probe}`);
  }

  /** Takes note that a bench was opened or ended. */
  noteBench(): void {
    this.#onBench = undefined;
    this.changes.whole('bench');
  }

  /**
   * Takes note of inspections of a bed. What they change is judged at once; where that goes far back, later.
   *
   * @returns whether it was judged by now
   */
  noteInspections(bed: string, times: readonly number[]): boolean {
    const watcher = this.#watchers.get(bed);
    this.changes.bed(bed);
    if (!watcher || times.length === 0) return true;
    for (const at of times) watcher.noteInspection(at);
    if (watcher.dirty && !(watcher.lag_h <= AT_ONCE_h)) watcher.saveMark();
    else this.advance(watcher);
    return !watcher.dirty;
  }

  /** Takes note that a probe's values are corrected otherwise from a time on: beds that see it are judged again from there. */
  noteCalibration(known: KnownProbe, from: number): void {
    this.changes.whole('probes');
    for (const stay of known.stays) {
      if (!(stay.to > from)) continue;
      const at = Math.max(from, stay.from);
      if (stay.placement) this.#watchers.get(stay.placement.bed)?.noteCorrection(at);
      else for (const watcher of this.#bySite.get(known.site) ?? []) watcher.noteCorrection(at);
    }
    for (const watcher of this.#watchers.values()) if (watcher.dirty) watcher.saveMark();
  }

  /** Judges a bed's hours again from where late readings changed them: a piece of them, until it is not dirty any more. */
  judgeAgain(bed: string, most_ms = PIECE_ms): void {
    const watcher = this.#watchers.get(bed);
    if (watcher) this.advance(watcher, most_ms);
  }

  /** Watchers whose past must be judged again. */
  dirty(): BedWatcher[] {
    return [...this.#watchers.values()].filter((watcher) => watcher.dirty);
  }

  /** Judges a bed's hours. Where its watch fails, that bed waits and readings go on being taken in. */
  advance(watcher: BedWatcher, most_ms?: number): void {
    try {
      this.#parts.database.transaction(() => watcher.advance(most_ms))();
      this.failures.delete(watcher.known.bed.id);
      this.changes.readings(watcher.known.bed.id);
      this.#keepAwake(watcher);
    } catch (error) {
      if (isStoreError(error)) throw error;
      this.failures.set(watcher.known.bed.id, error instanceof Error ? error.message : String(error));
      watcher.forget();
    }
  }

  #keepAwake(watcher: BedWatcher): void {
    this.#awake.delete(watcher);
    this.#awake.add(watcher);
    const [longest] = this.#awake;
    if (!longest || this.#awake.size <= MOST_AWAKE) return;
    longest.sleep();
    this.#awake.delete(longest);
  }

  /**
   * In order: judged at once. Out of order: written down, and judged later, many late readings in one go. So are beds
   * whose watch is not in memory, but for one: after a start a message would else wait for that of every bed.
   */
  #follow(later: boolean): void {
    let woken = false;
    for (const watcher of this.#touched) {
      if (later || (woken && watcher.asleep)) watcher.postpone();
      woken ||= watcher.asleep && watcher.due;
      if (watcher.dirty) watcher.saveMark();
      else if (watcher.due) this.advance(watcher);
    }
  }

  #forget(): void {
    this.archive.keys.forget();
    this.calibrations.forget();
    this.#onBench = undefined;
    this.#revision = -1;
  }
}
