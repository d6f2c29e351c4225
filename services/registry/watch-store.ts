/**
 * How far each bed has been watched, and states of its watch to go on from.
 */
import type { Episode } from '../core/model/alarm.js';
import { DAY_ms } from '../core/model/time.js';
import { LONGEST_CHECKPOINT_bytes } from '../core/watch/watch.js';
import type { Database } from './database.js';

export interface WatchMark {
  readonly version: string;
  /** Start of the bed's first hour, ms. */
  readonly begunAt: number;
  /** End of the last hour judged, ms. */
  readonly judgedTo: number;
  readonly dirtyFrom: number | null;
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
  readonly #checkpoint;
  readonly #setCheckpoint;
  readonly #thin;
  readonly #drop;

  constructor(database: Database) {
    this.#mark = database.prepare(
      'SELECT version, begun_at AS begunAt, judged_to AS judgedTo, dirty_from AS dirtyFrom FROM watch_mark WHERE bed = ?',
    );
    this.#setMark = database.prepare(
      'INSERT OR REPLACE INTO watch_mark (bed, version, begun_at, judged_to, dirty_from) VALUES (?, ?, ?, ?, ?)',
    );
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
    return this.#mark.get(bed) as WatchMark | undefined;
  }

  setMark(bed: string, { version, begunAt, judgedTo, dirtyFrom }: WatchMark): void {
    this.#setMark.run(bed, version, begunAt, judgedTo, dirtyFrom);
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
