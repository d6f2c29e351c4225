/**
 * Readings of probes that no site description knows: kept apart until somebody adopts the probe.
 */
import type { Database } from './database.js';
import type { StoredReading } from './reading-store.js';

/** Rows kept apart in all: about 200 MB; it keeps a stranger from filling the disk. */
export const MOST_ROWS_APART = 5_000_000;

/** Names that strangers may bring: it keeps one from filling the table of keys. */
export const MOST_PROBES_APART = 10_000;

export interface ProbeApart {
  readonly key: number;
  readonly site: string;
  readonly probe: string;
  readonly readings: number;
  readonly firstAt: number;
  readonly lastAt: number;
}

export class ApartStore {
  readonly #list;
  readonly #rows;
  readonly #forget;
  readonly #size;

  constructor(database: Database) {
    this.#list = database.prepare(
      `SELECT key, site, probe_key.probe AS probe, count(*) AS readings, min(time) AS firstAt, max(time) AS lastAt
       FROM apart JOIN probe_key ON key = apart.probe GROUP BY apart.probe ORDER BY site, probe_key.probe`,
    );
    this.#rows = database.prepare('SELECT * FROM apart WHERE probe = ? ORDER BY time LIMIT ?');
    this.#forget = database.prepare('DELETE FROM apart WHERE probe = ? AND time <= ?');
    this.#size = database.prepare('SELECT count(*) AS rows, count(DISTINCT probe) AS probes FROM apart');
  }

  list(): ProbeApart[] {
    return this.#list.all() as ProbeApart[];
  }

  size(): { rows: number; probes: number } {
    return this.#size.get() as { rows: number; probes: number };
  }

  /** The oldest rows of a probe. */
  rows(probe: number, most: number): StoredReading[] {
    return this.#rows.all(probe, most) as StoredReading[];
  }

  /** Takes away the rows up to a time, once they have been taken in. */
  forget(probe: number, upTo: number): void {
    this.#forget.run(probe, upTo);
  }
}
