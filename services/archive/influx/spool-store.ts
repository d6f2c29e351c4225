/**
 * Which readings are still to be forwarded to the long archive: noted in the transaction that keeps them, in the order
 * in which they came. A reading that gains a value later is noted again.
 *
 * Whether anything is noted stands in the database, not in memory: an import in another process must note too.
 */
import type { Quantity } from '../../core/model/quantity.js';
import type { Database } from '../database.js';

/** A noted reading with what is kept of it by now; every value is null where the reading itself is gone. */
export type SpooledReading = [seq: number, probe: number, time: number, ...values: (number | null)[]];

/** The order in which a spooled reading holds its values, after seq, key of the probe, and time. */
export const SPOOLED_QUANTITIES: readonly Quantity[] = ['temperature', 'humidity', 'battery', 'charge'];

export interface Backlog {
  readonly waiting: number;
  /** When the oldest that waits was taken in, wall clock, ms; null where none waits. */
  readonly oldestAt: number | null;
}

export class SpoolStore {
  readonly #now: () => number;
  readonly #note;
  readonly #setActive;
  readonly #active;
  readonly #batch;
  readonly #forget;
  readonly #backlog;
  readonly #earliest;

  /** @param now wall clock, ms */
  constructor(database: Database, now: () => number = Date.now) {
    this.#now = now;
    this.#note = database.prepare(
      'INSERT INTO spool (probe, time, noted_at) SELECT ?, ?, ? FROM spooling WHERE active = 1',
    );
    this.#setActive = database.prepare(
      'INSERT INTO spooling (id, active) VALUES (1, ?) ON CONFLICT DO UPDATE SET active = excluded.active',
    );
    this.#active = database.prepare('SELECT active FROM spooling').pluck();
    this.#batch = database
      .prepare(
        `SELECT seq, spool.probe, spool.time, ${SPOOLED_QUANTITIES.join(', ')}
         FROM spool LEFT JOIN reading USING (probe, time) WHERE seq > ? ORDER BY seq LIMIT ?`,
      )
      .raw();
    this.#forget = database.prepare('DELETE FROM spool WHERE seq >= ? AND seq <= ?');
    this.#backlog = database.prepare(
      `SELECT coalesce((SELECT max(seq) FROM spool) - (SELECT min(seq) FROM spool) + 1, 0) AS waiting,
       (SELECT noted_at FROM spool ORDER BY seq LIMIT 1) AS oldestAt`,
    );
    this.#earliest = database.prepare('SELECT min(time) FROM spool WHERE probe = ?').pluck();
  }

  /** Notes what is kept from now on, or nothing more. What was noted before stays. */
  setActive(active: boolean): void {
    this.#setActive.run(active ? 1 : 0);
  }

  get active(): boolean {
    return this.#active.get() === 1;
  }

  /** Notes a reading where there is a long archive. Belongs in the transaction that keeps the reading. */
  note(probe: number, time: number): void {
    this.#note.run(probe, time, this.#now());
  }

  /** The oldest after one, in the order in which they came. */
  batch(after: number, most: number): SpooledReading[] {
    return this.#batch.all(after, most) as SpooledReading[];
  }

  /** Takes away what was forwarded. They leave from the front, so that those that wait have no gaps between them. */
  forget(from: number, to: number): void {
    this.#forget.run(from, to);
  }

  backlog(): Backlog {
    return this.#backlog.get() as Backlog;
  }

  /**
   * Event time, ms, before which no reading of the probe waits to be forwarded; Infinity where none waits or there is
   * no long archive.
   */
  forwardedUpTo(probe: number): number {
    if (!this.active) return Number.POSITIVE_INFINITY;
    return (this.#earliest.get(probe) as number | null) ?? Number.POSITIVE_INFINITY;
  }
}
