/**
 * Keeps the watch of one bed at work: forward through the hours as readings come, and back to a kept state when
 * readings come late. What it writes is a function of what was measured, in whatever order it came.
 *
 * Every method writes and reads within the caller's transaction. After a transaction that failed, `forget()`.
 */
import { DAY_ms, HOUR_ms, hourOf, MINUTE_ms } from '../core/model/time.js';
import type { BedWatch, Standing } from '../core/watch/watch.js';
import type { JudgingMark } from '../registry/index.js';
import { episodesOpenAt, openEpisodes } from './alarm-keeper.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
import { atMark, passHours } from './folded-past.js';
import { bedHours } from './hour-strides.js';
import { JudgingRun, pieceEnd, type Resumed, undoRun, type WatcherParts } from './judging-run.js';
import { seasonBefore } from './season-before.js';

/** An hour is judged when a reading came this long after its end: probes of one round do not speak at one instant. */
const GRACE_ms = 5 * MINUTE_ms;

/** History of the shade from before the bed's first reading that the watch is given. */
const SHADE_BEFORE_ms = 10 * DAY_ms;

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
  /** How the bed stands after the last hour judged, as it is at rest: so asking does not cost a watch that goes on. */
  #standing: Standing | undefined;
  /** Before this event time readings are here by hours, ms: what was said of it stands. */
  #mark = 0;
  /** What is judged in pieces and has not come to its end. */
  #run: JudgingRun | undefined;
  /** A run that cannot go on, and has written. */
  #broken: JudgingMark | undefined;
  #runIsSaved = true;

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
    this.#standing = mark?.version === this.#version ? mark.standing : undefined;
    this.#frontier = this.#frontierAtRest();
    this.noteFolding();
    const run = mark?.version === this.#version ? mark.run : undefined;
    this.#run = run && JudgingRun.goOn(this.known, this.#parts, run);
    this.#broken = this.#run ? undefined : run;
    this.#runIsSaved = true;
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
    if (time < this.#mark) return;
    if (this.#run && hourOf(time) < this.#run.position) {
      this.#run.noteChange(hourOf(time));
      this.#runIsSaved = false;
    }
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
    const from = this.#run?.position ?? this.#dirtyFrom ?? this.#judgedTo;
    if (target === undefined || from === undefined) return 0;
    return Math.max(0, (target - Math.max(from, this.#begunAt ?? from)) / HOUR_ms);
  }

  /** Whether `advance` has anything to do. */
  get due(): boolean {
    const target = this.#target();
    return target !== undefined && (this.dirty || this.#judgedTo === undefined || target > this.#judgedTo);
  }

  /** How the bed stands after the last hour judged. */
  standing(): Standing {
    this.#standing ??= this.#resume().watch.standing();
    return this.#standing;
  }

  /** Whether the bed was judged and its watch is not in memory: to make it stand takes some tenths of a second. */
  get asleep(): boolean {
    return this.#judgedTo !== undefined && this.#live === undefined;
  }

  /** Lets the watch go from memory: it goes on from what is at rest. */
  sleep(): void {
    this.#live = undefined;
  }

  /** Writes down that hours must be judged again, without doing it yet. */
  saveMark(): void {
    if (this.#begunAt === undefined || this.#judgedTo === undefined) return;
    const { watch } = this.#parts.registry;
    watch.setMark(this.known.bed.id, {
      version: this.#version,
      begunAt: this.#begunAt,
      judgedTo: this.#judgedTo,
      dirtyFrom: this.#dirtyFrom ?? null,
      standing: this.#standing,
    });
    if (!this.#runIsSaved) watch.setRun(this.known.bed.id, this.#run?.mark);
    this.#runIsSaved = true;
  }

  /**
   * Judges every hour that can be judged, again where it must be.
   *
   * @param most_ms so much event time at the most: of a bed that is dirty the rest follows when it is called again
   */
  advance(most_ms = Number.POSITIVE_INFINITY): void {
    const target = this.#target();
    if (target === undefined || !this.due) return;
    const run = this.#goingRun(target);
    const end = pieceEnd(run.position, most_ms);
    const isDone = !(this.dirty && end < target);
    if (isDone) this.#end(run, target);
    else run.take(end);
    this.#runIsSaved = this.#runIsSaved && isDone && this.#run === undefined;
    this.#run = isDone ? undefined : run;
    this.saveMark();
  }

  #end(run: JudgingRun, target: number): void {
    run.finish(target);
    this.#live = run.watch;
    this.#standing = run.watch.standing();
    this.#begunAt = run.begunAt;
    this.#judgedTo = Math.max(target, run.position);
    this.#dirtyFrom = undefined;
  }

  #goingRun(target: number): JudgingRun {
    if (this.#run?.goBack()) return this.#run;
    if (this.#broken) undoRun(this.known, this.#parts, this.#broken);
    if (this.#broken) this.#runIsSaved = false;
    this.#broken = undefined;
    const resumed = this.#passFolded(this.#resume(), target);
    return JudgingRun.begin(this.known, this.#parts, resumed, this.#judgedTo);
  }

  /** Where readings are here by hours nothing is judged again; from the mark on everything is. */
  #passFolded(resumed: Resumed, target: number): Resumed {
    const { watch, position, since, open } = resumed;
    const mark = Math.min(this.#mark, target);
    if (!(position < mark)) return resumed;
    const bed = this.known.bed.id;
    this.#parts.registry.watch.dropCheckpointsAfter(bed, position);
    const seen = passHours({ bed, watch, open }, bedHours(this.#parts.hours, this.known, position, mark));
    if (since >= mark) return { ...resumed, position: mark };
    const told = episodesOpenAt(this.#parts.registry, bed, mark);
    return { ...resumed, position: mark, since: mark, ...atMark(mark, told, seen) };
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
      return { watch: watched, position, begunAt, ...seasonBefore(registry, bed, filled) };
    const open = kept?.open ?? [];
    return { watch: watched, position, since: kept?.hour ?? 0, begunAt, open, ended: [] };
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
