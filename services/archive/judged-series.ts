/** Judged hours of a probe for a plot: bounded in number, with the least and the greatest excess kept. */

import type { Statement } from 'better-sqlite3';
import { hourOf } from '../core/model/time.js';
import type { Database } from './database.js';
import type { JudgedHour } from './judged-store.js';

/** Whole hours, first and last included, ms. */
export interface JudgedHours {
  readonly first: number;
  readonly last: number;
}

const HOURS = 'FROM judged_hour WHERE probe = @probe AND hour >= @first AND hour <= @last';

/** Of parts of equal width that begin with the span; the driver binds numbers as REAL. */
const BY_PART = 'GROUP BY cast((max(hour, @from) - @from) / @width AS INTEGER)';

type Row = [hour: number, expected: number | null, band: number | null, excess: number | null];

const hourFrom = ([hour, expected, band, excess]: Row): JudgedHour => ({ hour, expected, band, excess });

export class JudgedSeries {
  readonly #count;
  readonly #all;
  readonly #least;
  readonly #greatest;
  readonly #without;
  readonly #at;

  constructor(database: Database) {
    this.#count = database.prepare(`SELECT count(*) FROM (SELECT 1 ${HOURS} LIMIT @most + 1)`).pluck();
    this.#all = database.prepare(`SELECT hour, expected, band, excess ${HOURS} ORDER BY hour`).raw();
    // Beside a single min() or max() SQLite gives the other columns of its row: "Bare columns in an aggregate query".
    const [least, greatest, without] = [
      `SELECT hour, expected, band, min(excess) ${HOURS} AND excess IS NOT NULL ${BY_PART}`,
      `SELECT hour, expected, band, max(excess) ${HOURS} AND excess IS NOT NULL ${BY_PART}`,
      `SELECT min(hour), expected, band, excess ${HOURS} ${BY_PART} HAVING count(excess) = 0`,
    ].map((select) => database.prepare(select).raw()) as [Statement, Statement, Statement];
    this.#least = least;
    this.#greatest = greatest;
    this.#without = without;
    this.#at = database
      .prepare(
        'SELECT hour, expected, band FROM judged_hour WHERE probe = ? AND hour IN (SELECT value FROM json_each(?))',
      )
      .raw();
  }

  /**
   * All hours where they are no more than `most`, else of each of equal parts of the span those with the least and the
   * greatest excess, or the first where none has one. In order of time.
   */
  read(
    probe: number,
    hours: JudgedHours,
    { from, to }: { readonly from: number; readonly to: number },
    most: number,
  ): JudgedHour[] {
    const bound = { probe, ...hours };
    if ((this.#count.get({ ...bound, most }) as number) <= most)
      return (this.#all.all(bound) as Row[]).map(hourFrom);
    const parts = Math.floor(most / 2);
    const inParts = { ...bound, from, width: Math.max(1, (to - from) / parts) };
    const least = this.#least.all(inParts) as Row[];
    const greatest = this.#greatest.all(inParts) as Row[];
    const without = least.length < parts ? (this.#without.all(inParts) as Row[]) : [];
    const kept = new Map([...least, ...greatest, ...without].map((row) => [row[0], row]));
    return [...kept.values()].sort(([one], [other]) => one - other).map(hourFrom);
  }

  /** What was expected in the hour of each time; undefined where nothing was. */
  at(
    probe: number,
    { first, last }: JudgedHours,
    times: readonly number[],
  ): ({ readonly expected: number | null; readonly band: number | null } | undefined)[] {
    const asked = new Set(times.map(hourOf).filter((hour) => hour >= first && hour <= last));
    const rows = this.#at.all(probe, JSON.stringify([...asked])) as [number, number | null, number | null][];
    const byHour = new Map(rows.map(([hour, expected, band]) => [hour, { expected, band }]));
    return times.map((time) => byHour.get(hourOf(time)));
  }
}
