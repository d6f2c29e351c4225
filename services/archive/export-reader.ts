/** Readings as they are at rest, some at a time, in order of time: what an export goes through. */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';
import type { Database } from './database.js';

/** Time, then the values of the quantities that were asked for, in their order; what was not measured is null. */
export type ReadingRow = readonly [time: number, ...values: (number | null)[]];

/** Start of the hour, then count, least, mean and greatest of each quantity that was asked for. */
export type HourRow = readonly [hour: number, ...values: (number | null)[]];

const HOUR_PARTS = ['count', 'least', 'mean', 'greatest'] as const;

/** Reads one choice of quantities. */
export class ExportReading {
  readonly #readings;
  readonly #hours;

  constructor(database: Database, quantities: readonly Quantity[]) {
    const wanted = quantities.filter((quantity) => QUANTITIES.includes(quantity));
    const some = 'ORDER BY 1 LIMIT ?';
    this.#readings = database
      .prepare(
        `SELECT time, ${wanted.join(', ')} FROM reading WHERE probe = ? AND time >= ? AND time < ? ${some}`,
      )
      .raw();
    const parts = wanted.flatMap((quantity) => HOUR_PARTS.map((part) => `${quantity}_${part}`));
    this.#hours = database
      .prepare(
        `SELECT hour, ${parts.join(', ')} FROM reading_hour WHERE probe = ? AND hour >= ? AND hour < ? ${some}`,
      )
      .raw();
  }

  /** Single readings with `from <= time < to`, the first ones. */
  readings(probe: number, from: number, to: number, most: number): ReadingRow[] {
    return this.#readings.all(probe, from, to, most) as ReadingRow[];
  }

  /** Hours that begin in [from, to), of which single readings are kept no more, the first ones. */
  hours(probe: number, from: number, to: number, most: number): HourRow[] {
    return this.#hours.all(probe, from, to, most) as HourRow[];
  }
}

export class ExportReader {
  readonly #database: Database;

  constructor(database: Database) {
    this.#database = database;
  }

  of(quantities: readonly Quantity[]): ExportReading {
    return new ExportReading(this.#database, quantities);
  }
}
