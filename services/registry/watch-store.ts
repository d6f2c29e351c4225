/**
 * How far each bed has been watched, and states of its watch to go on from.
 */
import { DAY_ms } from '../core/model/time.js';
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
}

/** States kept: one a day for the last days, then one in so many days, so that a late buffer costs few steps. */
const DAILY_FOR_days = 8;
const THEN_EVERY_days = 8;

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
      'SELECT hour, state FROM watch_checkpoint WHERE bed = ? AND hour <= ? ORDER BY hour DESC LIMIT 1',
    );
    this.#setCheckpoint = database.prepare(
      'INSERT OR REPLACE INTO watch_checkpoint (bed, hour, state) VALUES (?, ?, ?)',
    );
    this.#thin = database.prepare(
      `DELETE FROM watch_checkpoint WHERE bed = ? AND hour < ? AND hour / ${DAY_ms} % ${THEN_EVERY_days} <> 0`,
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
    return this.#checkpoint.get(bed, atMost) as Checkpoint | undefined;
  }

  keepCheckpoint(bed: string, { hour, state }: Checkpoint): void {
    this.#setCheckpoint.run(bed, hour, state);
    this.#thin.run(bed, hour - DAILY_FOR_days * DAY_ms);
  }

  /** Drops the states after a time: they rest on what has changed. */
  dropCheckpointsAfter(bed: string, hour: number): void {
    this.#drop.run(bed, hour);
  }
}
