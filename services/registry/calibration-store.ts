import type { CalibratedQuantity } from '../core/model/calibration.js';
import type { Calibration } from '../core/model/calibration-record.js';
import type { Database } from './database.js';

export interface CalibrationFilter {
  readonly site?: string | undefined;
  readonly probe?: string | undefined;
  readonly quantity?: CalibratedQuantity | undefined;
  readonly limit: number;
}

/** Calibrations at rest. A row is never changed: what supersedes it is a row of its own. */
export class CalibrationStore {
  readonly #database: Database;
  readonly #add;
  readonly #get;
  readonly #ofProbe;
  readonly #count;

  constructor(database: Database) {
    this.#database = database;
    this.#add = database.prepare(
      'INSERT INTO calibration (id, site, probe, quantity, from_at, document, written_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
    );
    this.#get = database.prepare('SELECT document FROM calibration WHERE id = ?').pluck();
    this.#ofProbe = database
      .prepare('SELECT document FROM calibration WHERE site = ? AND probe = ? ORDER BY from_at, written_at')
      .pluck();
    this.#count = database.prepare('SELECT count(*) FROM calibration').pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(calibration: Calibration, writtenAt: number): void {
    const { id, site, probe, quantity, from } = calibration;
    this.#add.run(id, site, probe, quantity, from, JSON.stringify(calibration), writtenAt);
  }

  get(id: string): Calibration | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Calibration);
  }

  /** Every record of a probe, those that are superseded too, in order of the time from which they hold. */
  ofProbe(site: string, probe: string): Calibration[] {
    return (this.#ofProbe.all(site, probe) as string[]).map((text) => JSON.parse(text) as Calibration);
  }

  /** Newest first by the time from which they hold. */
  list({ site, probe, quantity, limit }: CalibrationFilter): Calibration[] {
    const conditions = ['1'];
    const values: (string | number)[] = [];
    for (const [column, value] of Object.entries({ site, probe, quantity }))
      if (value !== undefined) {
        conditions.push(`${column} = ?`);
        values.push(value);
      }
    const texts = this.#database
      .prepare(
        `SELECT document FROM calibration WHERE ${conditions.join(' AND ')} ORDER BY from_at DESC, id LIMIT ?`,
      )
      .pluck()
      .all(...values, limit) as string[];
    return texts.map((text) => JSON.parse(text) as Calibration);
  }

  count(): number {
    return this.#count.get() as number;
  }
}
