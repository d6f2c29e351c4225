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
import type { BedWatch, Standing, Watch } from '../core/watch/watch.js';
import type { Registry } from '../registry/index.js';
import { type AlarmKeeper, episodesOpenAt, openEpisodes } from './alarm-keeper.js';
import type { BedHours } from './bed-hours.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
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
    this.#noteChange(from);
  }

  #noteChange(time: number): void {
    if (this.#judgedTo === undefined || time >= this.#judgedTo) return;
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
    const { watch, position, since, begunAt, open, ended } = this.#resume();
    const again = this.#judgedTo !== undefined && Math.min(position, since) < this.#judgedTo;
    if (again) this.#forgetAfter(position, since);
    const judging = new Judging(this.known, watch, open, this.#parts);
    judging.changes.push(...ended);
    for (let from = position; from < target; from += STRIDE_ms)
      for (const hour of this.#parts.hours.read(this.known, from, Math.min(from + STRIDE_ms, target)))
        judging.take(hour);
    if (again || judging.changes.length > 0)
      this.#parts.alarms.reconcile(this.known, { since, open, changes: judging.changes });
    this.#live = watch;
    this.#begunAt = begunAt;
    this.#judgedTo = Math.max(target, position);
    this.#dirtyFrom = undefined;
    this.saveMark();
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
