/**
 * How far each bed has been watched, and states of its watch to go on from.
 */
import type { Episode } from '../core/model/alarm.js';
import { DAY_ms } from '../core/model/time.js';
import type { TimedChange } from '../core/watch/episodes.js';
import { LONGEST_CHECKPOINT_bytes, type Standing } from '../core/watch/watch.js';
import type { Database } from './database.js';

export interface WatchMark {
  readonly version: string;
  /** Start of the bed's first hour, ms. */
  readonly begunAt: number;
  /** End of the last hour judged, ms. */
  readonly judgedTo: number;
  readonly dirtyFrom: number | null;
  /** How the bed stands after the last hour judged; absent where that is not known. */
  readonly standing?: Standing | undefined;
  /** A run that is not at its end. */
  readonly run?: JudgingMark | undefined;
}

type MarkRow = Omit<WatchMark, 'standing' | 'run'> & { standing: string | null; run: string | null };

/** How far a run of a bed's watch has got that is judged in pieces, and what it has established by then. */
export interface JudgingMark {
  /** Start of its first hour, ms. */
  readonly start: number;
  /** Event time after which alarms are found anew, ms. */
  readonly since: number;
  /** Start of the bed's first hour, ms. */
  readonly begunAt: number;
  /** The alarms that were open at its start, as they were known by then. */
  readonly open: readonly Episode[];
  /** Whether hours were judged before that it judges. */
  readonly again: boolean;
  /** End of its last hour so far, ms: of that time there is a state. */
  readonly position: number;
  readonly changes: readonly TimedChange[];
  /** Start of the first of its hours that has changed since, ms; null where none has. */
  readonly changedFrom: number | null;
}

export interface Checkpoint {
  /** All hours before this time are in the state. */
  readonly hour: number;
  readonly state: string;
  /** The alarms that were open by then, as they were known by then. */
  readonly open: readonly Episode[];
}

/**
 * Which states are kept: one for each of the last days, then one in 8 days, then one in 30. A late buffer from
 * before a state that is no longer kept has its bed judged again from the next older one.
 *
 * At most 21 for a bed in its first year (3, then 5, then 13), 5.25 MiB if every one is as long as it may be, and 13,
 * 3.25 MiB, for each year after.
 */
const DAILY_FOR_days = 3;
const THEN_EVERY_days = 8;
const THEN_FOR_days = 40;
export const STATES_FOR_EVER_EVERY_days = 30;

export class WatchStore {
  readonly #mark;
  readonly #setMark;
  readonly #setRun;
  readonly #checkpoint;
  readonly #setCheckpoint;
  readonly #thin;
  readonly #drop;

  constructor(database: Database) {
    this.#mark = database.prepare(
      'SELECT version, begun_at AS begunAt, judged_to AS judgedTo, dirty_from AS dirtyFrom, standing, run FROM watch_mark WHERE bed = ?',
    );
    this.#setMark = database.prepare(
      `INSERT INTO watch_mark (bed, version, begun_at, judged_to, dirty_from, standing) VALUES (?, ?, ?, ?, ?, ?)
       ON CONFLICT DO UPDATE SET version = excluded.version, begun_at = excluded.begun_at,
       judged_to = excluded.judged_to, dirty_from = excluded.dirty_from, standing = excluded.standing`,
    );
    this.#setRun = database.prepare('UPDATE watch_mark SET run = ? WHERE bed = ?');
    this.#checkpoint = database.prepare(
      'SELECT hour, state, open FROM watch_checkpoint WHERE bed = ? AND hour <= ? ORDER BY hour DESC LIMIT 1',
    );
    this.#setCheckpoint = database.prepare(
      'INSERT OR REPLACE INTO watch_checkpoint (bed, hour, state, open) VALUES (?, ?, ?, ?)',
    );
    const day = `hour / ${DAY_ms}`;
    this.#thin = database.prepare(
      `DELETE FROM watch_checkpoint WHERE bed = @bed AND hour <= @newest - ${DAILY_FOR_days * DAY_ms}
       AND ${day} % ${STATES_FOR_EVER_EVERY_days} <> 0
       AND (${day} % ${THEN_EVERY_days} <> 0 OR hour <= @newest - ${THEN_FOR_days * DAY_ms})`,
    );
    this.#drop = database.prepare('DELETE FROM watch_checkpoint WHERE bed = ? AND hour > ?');
  }

  mark(bed: string): WatchMark | undefined {
    const row = this.#mark.get(bed) as MarkRow | undefined;
    if (!row) return undefined;
    const { standing, run, ...mark } = row;
    return {
      ...mark,
      ...(standing !== null && { standing: JSON.parse(standing) as Standing }),
      ...(run !== null && { run: JSON.parse(run) as JudgingMark }),
    };
  }

  /** The run that stands there stays. */
  setMark(bed: string, { version, begunAt, judgedTo, dirtyFrom, standing }: Omit<WatchMark, 'run'>): void {
    const stands = standing === undefined ? null : JSON.stringify(standing);
    this.#setMark.run(bed, version, begunAt, judgedTo, dirtyFrom, stands);
  }

  /** Of a bed that has a mark. */
  setRun(bed: string, run: JudgingMark | undefined): void {
    this.#setRun.run(run === undefined ? null : JSON.stringify(run), bed);
  }

  /** The newest state at or before a time. */
  checkpoint(bed: string, atMost: number): Checkpoint | undefined {
    const row = this.#checkpoint.get(bed, atMost) as
      | (Omit<Checkpoint, 'open'> & { open: string })
      | undefined;
    return row && { ...row, open: JSON.parse(row.open) as Episode[] };
  }

  /** Keeps a state, unless it is longer than it may be: then the bed goes on from an older one. */
  keepCheckpoint(bed: string, { hour, state, open }: Checkpoint): void {
    if (!(Buffer.byteLength(state) <= LONGEST_CHECKPOINT_bytes)) return;
    this.#setCheckpoint.run(bed, hour, state, JSON.stringify(open));
    this.#thin.run({ bed, newest: hour });
  }

  /** Whether there is a state of exactly that time. */
  hasCheckpoint(bed: string, hour: number): boolean {
    return this.checkpoint(bed, hour)?.hour === hour;
  }

  /** Drops the states after a time: they rest on what has changed. */
  dropCheckpointsAfter(bed: string, hour: number): void {
    this.#drop.run(bed, hour);
  }
}
