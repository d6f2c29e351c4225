/** What the watch expected of a probe, hour by hour. */
import { DAY_ms } from '../core/model/time.js';
import type { Database } from './database.js';

export interface JudgedHour {
  readonly hour: number;
  readonly expected: number | null;
  readonly band: number | null;
  readonly excess: number | null;
}

type JudgedRow = [hour: number, expected: number | null, band: number | null, excess: number | null];

const hourFrom = ([hour, expected, band, excess]: JudgedRow): JudgedHour => ({
  hour,
  expected,
  band,
  excess,
});

export class JudgedStore {
  readonly #put;
  readonly #read;
  readonly #latest;
  readonly #forget;
  readonly #daily;

  constructor(database: Database) {
    this.#put = database.prepare(
      'INSERT OR REPLACE INTO judged_hour (probe, hour, expected, band, excess) VALUES (?, ?, ?, ?, ?)',
    );
    this.#read = database
      .prepare(
        'SELECT hour, expected, band, excess FROM judged_hour WHERE probe = ? AND hour >= ? AND hour < ? ORDER BY hour',
      )
      .raw();
    this.#latest = database.prepare(
      `SELECT hour, expected, band, excess FROM judged_hour WHERE probe = @probe
       AND hour >= (SELECT max(hour) FROM judged_hour WHERE probe = @probe) - ${DAY_ms}
       ORDER BY excess IS NULL, hour DESC LIMIT 1`,
    );
    this.#daily = database.prepare(
      `SELECT hour / ${DAY_ms} * ${DAY_ms} AS at, max(excess) AS excess FROM judged_hour
       WHERE probe = ? AND hour >= ? AND hour < ? AND excess IS NOT NULL GROUP BY 1 ORDER BY 1`,
    );
    this.#forget = database.prepare('DELETE FROM judged_hour WHERE probe = ? AND hour >= ? AND hour < ?');
  }

  /** Keeps what the watch expected; a later judgement of the same hour replaces it. */
  put(probe: number, judged: JudgedHour): void {
    this.#put.run(probe, judged.hour, judged.expected, judged.band, judged.excess);
  }

  /** Hours of [from, to), in order. */
  read(probe: number, from: number, to: number): JudgedHour[] {
    return (this.#read.all(probe, from, to) as JudgedRow[]).map(hourFrom);
  }

  /** The highest excess of each day in UTC that has one, in order; hours with `from <= hour < to`, ms. */
  dailyExcess(
    probe: number,
    { from, to }: { readonly from: number; readonly to: number },
  ): { readonly at: number; readonly excess: number }[] {
    return this.#daily.all(probe, from, to) as { at: number; excess: number }[];
  }

  /** The newest hour of its last day in which it measured; where it did in none, the newest. */
  latest(probe: number): JudgedHour | undefined {
    return this.#latest.get({ probe }) as JudgedHour | undefined;
  }

  /** Forgets the judgements of [from, to), before that time is looked at anew. */
  forget(probe: number, from: number, to: number): void {
    this.#forget.run(probe, from, to);
  }
}
