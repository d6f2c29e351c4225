/**
 * One run of a bed's watch from where it goes on to where hours can be judged by now, in pieces: each may be a transaction
 * of its own, so that years that are judged again keep no other writer waiting. What is said of hours is written piece by
 * piece; alarms follow at the end, all together, so that nobody is told of half of it. Killed in between it goes on from
 * the last piece, and what comes of it is what one piece would have given.
 *
 * Every method writes and reads within the caller's transaction.
 */
import type { Archive } from '../archive/index.js';
import type { Episode } from '../core/model/alarm.js';
import { DAY_ms } from '../core/model/time.js';
import type { TimedChange } from '../core/watch/episodes.js';
import type { BedWatch, Watch } from '../core/watch/watch.js';
import type { JudgingMark, Registry } from '../registry/index.js';
import type { AlarmKeeper } from './alarm-keeper.js';
import type { BedHours } from './bed-hours.js';
import { type KnownBed, staysInBed } from './directory.js';
import { bedHours } from './hour-strides.js';
import { Judging } from './judging.js';

export interface WatcherParts {
  readonly archive: Archive;
  readonly registry: Registry;
  readonly watch: Watch;
  readonly hours: BedHours;
  readonly alarms: AlarmKeeper;
}

/** Where a watch goes on. */
export interface Resumed {
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

type Begun = Omit<JudgingMark, 'position' | 'changes' | 'changedFrom'>;

export class JudgingRun {
  readonly #known: KnownBed;
  readonly #parts: WatcherParts;
  readonly #from: Begun;
  #position: number;
  #changedFrom: number | undefined;
  #watch: BedWatch;
  #judging: Judging;

  /** @param judgedTo end of the last hour that was judged before; undefined where none was */
  static begin(
    known: KnownBed,
    parts: WatcherParts,
    { watch, position, since, begunAt, open, ended }: Resumed,
    judgedTo: number | undefined,
  ): JudgingRun {
    const again = judgedTo !== undefined && Math.min(position, since) < judgedTo;
    const judging = new Judging(known, watch, open, parts);
    judging.changes.push(...ended);
    if (again) parts.registry.watch.dropCheckpointsAfter(known.bed.id, Math.min(position, since));
    const from = { start: position, since, begunAt, open, again };
    return new JudgingRun(known, parts, from, position, watch, judging);
  }

  /** Goes on from what is at rest; undefined where that cannot be. */
  static goOn(known: KnownBed, parts: WatcherParts, mark: JudgingMark): JudgingRun | undefined {
    const { position, changes, changedFrom, ...from } = mark;
    const kept = parts.registry.watch.checkpoint(known.bed.id, position);
    if (kept?.hour !== position) return undefined;
    const watch = parts.watch.open(known.watched, kept.state);
    const judging = new Judging(known, watch, kept.open, parts, changes);
    const run = new JudgingRun(known, parts, from, position, watch, judging);
    run.#changedFrom = changedFrom ?? undefined;
    return run;
  }

  private constructor(
    known: KnownBed,
    parts: WatcherParts,
    from: Begun,
    position: number,
    watch: BedWatch,
    judging: Judging,
  ) {
    this.#known = known;
    this.#parts = parts;
    this.#from = from;
    this.#position = position;
    this.#watch = watch;
    this.#judging = judging;
  }

  /** All hours before this time are judged, and nothing in them has changed since, ms. */
  get position(): number {
    return Math.min(this.#position, this.#changedFrom ?? this.#position);
  }

  get begunAt(): number {
    return this.#from.begunAt;
  }

  get watch(): BedWatch {
    return this.#watch;
  }

  /** What is written with each piece. */
  get mark(): JudgingMark {
    return {
      ...this.#from,
      ...{ position: this.#position, changes: this.#judging.changes, changedFrom: this.#changedFrom ?? null },
    };
  }

  /** Takes note that an hour has changed: where it was judged by now, it is judged once more. */
  noteChange(hour: number): void {
    if (hour < this.position) this.#changedFrom = hour;
  }

  /** Goes back before what has changed. @returns whether it can: else all must begin anew, and what it wrote is gone */
  goBack(): boolean {
    const from = this.#changedFrom;
    if (from === undefined) return true;
    const { start, since } = this.#from;
    const kept = this.#parts.registry.watch.checkpoint(this.#known.bed.id, from);
    if (!kept || kept.hour < start || kept.hour < since) {
      undoRun(this.#known, this.#parts, this.mark);
      return false;
    }
    this.#parts.registry.watch.dropCheckpointsAfter(this.#known.bed.id, kept.hour);
    forgetHours(this.#known, this.#parts, kept.hour, this.#position);
    const changes = this.#judging.changes.filter(({ at }) => at <= kept.hour);
    this.#watch = this.#parts.watch.open(this.#known.watched, kept.state);
    this.#judging = new Judging(this.#known, this.#watch, kept.open, this.#parts, changes);
    this.#position = kept.hour;
    this.#changedFrom = undefined;
    return true;
  }

  /** Judges the next hours, up to the end of a day. */
  take(to: number): void {
    this.#judge(to, to);
  }

  /** Judges the last hours, and lets alarms follow from all of them. */
  finish(to: number): void {
    this.#judge(to, Number.MAX_SAFE_INTEGER);
    const { since, open, again } = this.#from;
    const { changes } = this.#judging;
    if (again || changes.length > 0) this.#parts.alarms.reconcile(this.#known, { since, open, changes });
  }

  #judge(to: number, forgetTo: number): void {
    if (this.#from.again) this.#forget(forgetTo);
    for (const hour of bedHours(this.#parts.hours, this.#known, this.#position, to)) this.#judging.take(hour);
    this.#position = Math.max(to, this.#position);
  }

  /** What was said of these hours before. */
  #forget(to: number): void {
    const { start, since } = this.#from;
    const from = this.#position === start ? since : Math.max(since, this.#position);
    forgetHours(this.#known, this.#parts, from, to);
  }
}

/** Takes back what a run has written that does not come to its end. */
export function undoRun(known: KnownBed, parts: WatcherParts, { start, position }: JudgingMark): void {
  parts.registry.watch.dropCheckpointsAfter(known.bed.id, start);
  forgetHours(known, parts, start, position);
}

function forgetHours({ bed, probes }: KnownBed, { archive }: WatcherParts, from: number, to: number): void {
  archive.flags.forget(bed.id, from, to);
  for (const probe of probes)
    for (const stay of staysInBed(probe, bed.id))
      archive.judged.forget(probe.key, Math.max(stay.from, from), Math.min(stay.to, to));
}

/** Whole days from a position on: the end of a day leaves a state to go on from. */
export const pieceEnd = (position: number, piece_ms: number): number =>
  Math.floor((position + piece_ms) / DAY_ms) * DAY_ms;
