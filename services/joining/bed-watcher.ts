/**
 * Keeps the watch of one bed at work: forward through the hours as readings come, and back to a kept state when
 * readings come late. What it writes is a function of what was measured, in whatever order it came.
 *
 * Every method writes and reads within the caller's transaction. After a transaction that failed, `forget()`.
 */
import type { Archive } from '../archive/index.js';
import type { Episode } from '../core/model/alarm.js';
import { DAY_ms, HOUR_ms, hourOf, MINUTE_ms } from '../core/model/time.js';
import type { TimedChange } from '../core/watch/episodes.js';
import type { BedHour, BedWatch, Standing, Watch } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import { type AlarmKeeper, episodesOpenAt, openEpisodes } from './alarm-keeper.js';
import type { BedHours } from './bed-hours.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
import { atMark, passHours } from './folded-past.js';
import { Judging } from './judging.js';

/** An hour is judged when a reading came this long after its end: probes of one round do not speak at one instant. */
const GRACE_ms = 5 * MINUTE_ms;

/** History of the shade from before the bed's first reading that the watch is given. */
const SHADE_BEFORE_ms = 10 * DAY_ms;

/** Hours read from the archive at a time: 20 probes at one reading a minute make 230,000 samples. */
const STRIDE_ms = 8 * DAY_ms;

export interface WatcherParts {
  readonly archive: Archive;
  readonly registry: Registry;
  readonly watch: Watch;
  readonly hours: BedHours;
  readonly alarms: AlarmKeeper;
}

/** Where a watch goes on. */
interface Resumed {
  readonly watch: BedWatch;
  /** All hours before this time are in its state. */
  readonly position: number;
  /** Event time after which everything at rest is found anew: the position, or 0 where the bed begins anew. */
  readonly since: number;
  readonly begunAt: number;
  /** The episodes that were open at the position, as they were known then. */
  readonly open: readonly Episode[];
  /** Ends of those of them that were over when the bed was filled anew. */
  readonly ended: readonly TimedChange[];
}

export class BedWatcher {
  readonly known: KnownBed;
  readonly #parts: WatcherParts;
  readonly #version: string;
  #begunAt: number | undefined;
  #judgedTo: number | undefined;
  #dirtyFrom: number | undefined;
  /** Newest event time that lets hours be judged. */
  #frontier: number | undefined;
  #live: BedWatch | undefined;
  /** Before this event time readings are here by hours, ms: what was said of it stands. */
  #mark = 0;

  constructor(known: KnownBed, parts: WatcherParts) {
    this.known = known;
    this.#parts = parts;
    this.#version = `${parts.watch.version}/${known.digest}`;
    this.forget();
  }

  /** Takes everything from what is at rest. */
  forget(): void {
    const mark = this.#parts.registry.watch.mark(this.known.bed.id);
    this.#live = undefined;
    this.#begunAt = mark?.begunAt;
    this.#judgedTo = mark?.judgedTo;
    this.#dirtyFrom = mark && mark.version !== this.#version ? 0 : (mark?.dirtyFrom ?? undefined);
    this.#frontier = this.#frontierAtRest();
    this.noteFolding();
  }

  /** Takes note that readings of before a time may go into their hours. */
  noteFolding(): void {
    const { fullRate } = this.#parts.archive;
    const goals = [...this.known.probes, ...this.known.shade].map(({ key }) => fullRate.mark(key).goal);
    this.#mark = Math.max(0, ...goals);
  }

  /** Takes note of a new reading of one of the bed's probes. */
  noteReading(time: number): void {
    if (!(this.#frontier !== undefined && this.#frontier >= time)) this.#frontier = time;
    this.#noteChange(time);
  }

  /** Takes note of a new reading of the shade: it is looked at with the hours of the bed, and does not close them. */
  noteShade(time: number): void {
    this.#noteChange(time);
  }

  /** An inspection closes its hour, so that what it resets is seen at once. */
  noteInspection(at: number): void {
    const closes = hourOf(at) + HOUR_ms + GRACE_ms;
    this.#frontier = Math.max(this.#frontier ?? closes, closes);
    this.#noteChange(at);
  }

  /** Takes note that values from a time on are corrected otherwise. */
  noteCorrection(from: number): void {
    this.#noteChange(Math.max(from, this.#mark));
  }

  #noteChange(time: number): void {
    if (this.#judgedTo === undefined || time >= this.#judgedTo || time < this.#mark) return;
    this.#dirtyFrom = Math.min(this.#dirtyFrom ?? time, hourOf(time));
  }

  /** Whether hours that were judged must be judged again. */
  get dirty(): boolean {
    return this.#dirtyFrom !== undefined;
  }

  /** End of the last hour judged; undefined before the first. */
  get judgedTo(): number | undefined {
    return this.#judgedTo;
  }

  /** Start of the bed's first hour; undefined before it was judged. */
  get begunAt(): number | undefined {
    return this.#begunAt;
  }

  /** Newest event time of the bed's readings; an inspection counts as the end of its hour. */
  get newestReadingAt(): number | undefined {
    return this.#frontier;
  }

  /** Leaves hours that can be judged for later, as those that late readings change. */
  postpone(): void {
    if (!this.due || this.dirty) return;
    this.#begunAt ??= this.#begin();
    this.#judgedTo ??= this.#begunAt;
    this.#dirtyFrom = this.#judgedTo;
  }

  /** Hours that wait to be judged, those to be judged again included. */
  get lag_h(): number {
    const target = this.#target();
    const from = this.#dirtyFrom ?? this.#judgedTo;
    if (target === undefined || from === undefined) return 0;
    return Math.max(0, (target - Math.max(from, this.#begunAt ?? from)) / HOUR_ms);
  }

  /** Whether `advance` has anything to do. */
  get due(): boolean {
    const target = this.#target();
    return target !== undefined && (this.dirty || this.#judgedTo === undefined || target > this.#judgedTo);
  }

  standing(): Standing {
    return this.#resume().watch.standing();
  }

  /** Writes down that hours must be judged again, without doing it yet. */
  saveMark(): void {
    if (this.#begunAt === undefined || this.#judgedTo === undefined) return;
    this.#parts.registry.watch.setMark(this.known.bed.id, {
      version: this.#version,
      begunAt: this.#begunAt,
      judgedTo: this.#judgedTo,
      dirtyFrom: this.#dirtyFrom ?? null,
    });
  }

  /** Judges every hour that can be judged, again where it must be. */
  advance(): void {
    const target = this.#target();
    if (target === undefined || !this.due) return;
    const { watch, position, since, begunAt, open, ended } = this.#passFolded(this.#resume(), target);
    const again = this.#judgedTo !== undefined && Math.min(position, since) < this.#judgedTo;
    if (again) this.#forgetAfter(position, since);
    const judging = new Judging(this.known, watch, open, this.#parts);
    judging.changes.push(...ended);
    for (const hour of this.#hours(position, target)) judging.take(hour);
    if (again || judging.changes.length > 0)
      this.#parts.alarms.reconcile(this.known, { since, open, changes: judging.changes });
    this.#live = watch;
    this.#begunAt = begunAt;
    this.#judgedTo = Math.max(target, position);
    this.#dirtyFrom = undefined;
    this.saveMark();
  }

  /** Where readings are here by hours nothing is judged again; from the mark on everything is. */
  #passFolded(resumed: Resumed, target: number): Resumed {
    const { watch, position, since, open } = resumed;
    const mark = Math.min(this.#mark, target);
    if (!(position < mark)) return resumed;
    const bed = this.known.bed.id;
    this.#parts.registry.watch.dropCheckpointsAfter(bed, position);
    const seen = passHours({ bed, watch, open }, this.#hours(position, mark));
    if (since >= mark) return { ...resumed, position: mark };
    const told = episodesOpenAt(this.#parts.registry, bed, mark);
    return { ...resumed, position: mark, since: mark, ...atMark(mark, told, seen) };
  }

  *#hours(from: number, to: number): Generator<BedHour> {
    for (let start = from; start < to; start += STRIDE_ms)
      yield* this.#parts.hours.read(this.known, start, Math.min(start + STRIDE_ms, to));
  }

  /** The watch as it was at a position at or before everything that must be judged. */
  #resume(): Resumed {
    const { watch, registry } = this.#parts;
    const bed = this.known.bed.id;
    if (this.#live && !this.dirty && this.#judgedTo !== undefined && this.#begunAt !== undefined) {
      const position = this.#judgedTo;
      const open = openEpisodes(registry, bed);
      return { watch: this.#live, position, since: position, begunAt: this.#begunAt, open, ended: [] };
    }
    const begunAt = this.#begin();
    const from = Math.min(this.#dirtyFrom ?? this.#judgedTo ?? begunAt, this.#judgedTo ?? begunAt);
    const anew = begunAt !== this.#begunAt || from === 0;
    const kept = anew ? undefined : registry.watch.checkpoint(bed, from);
    const watched = watch.open(this.known.watched, kept?.state);
    const position = kept?.hour ?? begunAt;
    const { filled } = this.known.bed;
    if (filled !== undefined && position < filled)
      return { watch: watched, position, begunAt, ...this.#seasonBefore(filled) };
    const open = kept?.open ?? [];
    return { watch: watched, position, since: kept?.hour ?? 0, begunAt, open, ended: [] };
  }

  /**
   * What was told of a bed before it was filled last stands: its watch says nothing of that time, as it was another
   * bed. What was open by then was over with it.
   */
  #seasonBefore(filled: number): Pick<Resumed, 'since' | 'open' | 'ended'> {
    const open = episodesOpenAt(this.#parts.registry, this.known.bed.id, filled);
    const ended = open.map(({ kind, action, subject }) => ({
      ...({ type: 'clear', kind, action, subject } as const),
      at: filled,
    }));
    return { since: filled, open, ended };
  }

  #forgetAfter(position: number, since: number): void {
    const { archive, registry } = this.#parts;
    const bed = this.known.bed.id;
    registry.watch.dropCheckpointsAfter(bed, Math.min(position, since));
    archive.flags.forget(bed, since);
    for (const probe of this.known.probes)
      for (const { from, to } of staysInBed(probe, bed))
        archive.judged.forget(probe.key, Math.max(from, since), Math.min(to, Number.MAX_SAFE_INTEGER));
  }

  /** End of the last hour that can be judged by now. */
  #target(): number | undefined {
    if (this.#frontier === undefined) return undefined;
    return hourOf(this.#frontier - GRACE_ms);
  }

  /** Start of the bed's first hour: its first reading, or some days earlier where the shade was measured by then. */
  #begin(): number {
    if (this.#begunAt !== undefined && this.#begunAt < this.#mark) return this.#begunAt;
    const first = this.#firstReading(this.known.probes, (probe) => staysInBed(probe, this.known.bed.id), 0);
    if (first === undefined) return this.#target() ?? 0;
    const shadeFrom = first - SHADE_BEFORE_ms;
    const shade = this.#firstReading(this.known.shade, staysInShade, shadeFrom);
    return hourOf(Math.min(first, shade ?? first));
  }

  #firstReading(
    probes: readonly KnownProbe[],
    staysOf: (probe: KnownProbe) => Stay[],
    notBefore: number,
  ): number | undefined {
    let first: number | undefined;
    for (const probe of probes)
      for (const stay of staysOf(probe)) {
        const time = this.#parts.archive.readings.firstTime(probe.key, Math.max(stay.from, notBefore));
        if (time !== undefined && time < stay.to) first = Math.min(first ?? time, time);
      }
    return first;
  }

  #frontierAtRest(): number | undefined {
    const { archive, registry } = this.#parts;
    let frontier: number | undefined;
    for (const probe of this.known.probes)
      for (const stay of staysInBed(probe, this.known.bed.id)) {
        const last = archive.readings.lastTime(probe.key, Math.min(stay.to, Number.MAX_SAFE_INTEGER));
        if (last !== undefined && last >= stay.from) frontier = Math.max(frontier ?? last, last);
      }
    const inspected = registry.inspections.newestAt(this.known.bed.id);
    if (inspected === undefined) return frontier;
    const closes = hourOf(inspected) + HOUR_ms + GRACE_ms;
    return Math.max(frontier ?? closes, closes);
  }
}
