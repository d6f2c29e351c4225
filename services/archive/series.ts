/**
 * Readings for a plot: bounded in length, with the minima and maxima of temperature kept.
 */
import type { Database } from './database.js';

export interface SeriesRow {
  readonly time: number;
  readonly temperature: number | null;
  readonly humidity: number | null;
}

export class SeriesReader {
  readonly #count;
  readonly #all;
  readonly #lows;
  readonly #highs;

  constructor(database: Database) {
    const range = 'FROM reading WHERE probe = ? AND time >= ? AND time < ?';
    this.#count = database.prepare(`SELECT count(*) ${range}`).pluck();
    this.#all = database.prepare(`SELECT time, temperature, humidity ${range} ORDER BY time`);
    // SQLite gives the bare columns of the row that has the minimum (or maximum): documented for one such aggregate.
    const bucketed = (aggregate: string) =>
      database.prepare(
        `SELECT time, humidity, ${aggregate}(temperature) AS temperature ${range} GROUP BY (time - ?) / ? ORDER BY time`,
      );
    this.#lows = bucketed('min');
    this.#highs = bucketed('max');
  }

  /**
   * Rows of [from, to) in order of time: all of them where they are no more than `points`, else the coldest and
   * the warmest of each of `points / 2` equal parts of the span.
   */
  read(probe: number, from: number, to: number, points: number): SeriesRow[] {
    const count = this.#count.get(probe, from, to) as number;
    if (count <= points) return this.#all.all(probe, from, to) as SeriesRow[];
    // Bound as integers: a JavaScript number would bind as REAL, and the division would not be whole.
    const width = BigInt(Math.max(1, Math.ceil((to - from) / Math.floor(points / 2))));
    const rows = [
      ...(this.#lows.all(probe, from, to, BigInt(from), width) as SeriesRow[]),
      ...(this.#highs.all(probe, from, to, BigInt(from), width) as SeriesRow[]),
    ];
    rows.sort((one, other) => one.time - other.time);
    return rows.filter((row, index) => row.time !== rows[index - 1]?.time);
  }
}
