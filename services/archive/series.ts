/**
 * Readings for a plot: bounded in length, with the minima and maxima of temperature and humidity kept.
 */

import { MINUTE_ms } from '../core/model/time.js';
import type { Database } from './database.js';
import type { FoldedReadings } from './reading-store.js';
import {
  ALL_USED,
  type Parts,
  partsOf,
  type Raw,
  rowOf,
  type SeriesRow,
  type SeriesSpan,
  type Unused,
  used,
} from './series-parts.js';

export interface Series {
  readonly rows: readonly SeriesRow[];
  /** Whether these are fewer rows than were measured. */
  readonly thinned: boolean;
}

type Sought = [
  coldest: number | null,
  warmest: number | null,
  driest: number | null,
  moistest: number | null,
];

/** A bit for each that there is. */
const openOf = (sought: Sought): number =>
  sought.reduce<number>((bits, value, at) => (value === null ? bits : bits | (1 << at)), 0);

/** A bit for each that the row has. */
const foundIn = ([, temperature, humidity]: Raw, [coldest, warmest, driest, moistest]: Sought): number =>
  Number(temperature === coldest) +
  2 * Number(temperature === warmest) +
  4 * Number(humidity === driest) +
  8 * Number(humidity === moistest);

/** Where in its hour the least and the greatest value are shown: when they were measured is not known any more. */
const LEAST_AT_ms = 20 * MINUTE_ms;
const GREATEST_AT_ms = 40 * MINUTE_ms;

export class SeriesReader {
  readonly #folded: FoldedReadings;
  readonly #atOnce;
  readonly #rows;
  readonly #count;
  readonly #measured;
  readonly #extremes;
  readonly #withOneOf;

  constructor(database: Database, folded: FoldedReadings) {
    this.#folded = folded;
    // Each statement by itself would take and give up SQLite's lock for readers.
    this.#atOnce = database.transaction((work: () => void) => work());
    const range = 'FROM reading WHERE probe = ? AND time >= ? AND time < ?';
    this.#rows = database.prepare(`SELECT time, temperature, humidity ${range} ORDER BY time`).raw();
    this.#count = database.prepare(`SELECT count(*) FROM (SELECT 1 ${range} LIMIT ?)`).pluck();
    this.#measured = {
      1: database.prepare(`SELECT 1 ${range} AND temperature IS NOT NULL LIMIT 1`),
      2: database.prepare(`SELECT 1 ${range} AND humidity IS NOT NULL LIMIT 1`),
    };
    this.#extremes = database
      .prepare(`SELECT min(temperature), max(temperature), min(humidity), max(humidity) ${range}`)
      .raw();
    this.#withOneOf = database
      .prepare(
        `SELECT time, temperature, humidity ${range}
         AND (temperature = ? OR temperature = ? OR humidity = ? OR humidity = ?) ORDER BY time`,
      )
      .raw();
  }

  /**
   * Rows of [from, to) in order of time: all of them where they are no more than `points`, else those with the lowest
   * and the highest used value of each quantity in each of equal parts of the span, with what is not used left out. An
   * hour that is not here one by one gives a row of its least values and one of its greatest.
   */
  read(probe: number, from: number, to: number, points: number, unused: Unused = ALL_USED): Series {
    const hours = this.#hourRows(probe, from, to);
    const most = points - hours.length;
    if (most >= 0 && (this.#count.get(probe, from, to, most + 1) as number) <= most) {
      const rows = [...hours, ...this.#raws(probe, from, to)].sort(byTime).map(rowOf);
      return { rows, thinned: hours.length > 0 };
    }
    const columns = COLUMNS.filter(
      (column) =>
        hours.some((raw) => raw[column] !== null) ||
        this.#measured[column].get(probe, from, to) !== undefined,
    );
    const parts = partsOf({ from, to }, points, columns);
    for (const raw of hours) parts.take(raw);
    this.#atOnce(() => this.#takeReadings(parts, { probe, from, to }, unused));
    return { rows: parts.rows(), thinned: true };
  }

  /** By SQL; where values of a part are not used, the rows of that part one by one. */
  #takeReadings(
    parts: Parts,
    { probe, from, to }: SeriesSpan & { readonly probe: number },
    unused: Unused,
  ): void {
    const touched = new Set(
      [...unused.temperature, ...unused.humidity]
        .filter((time) => time >= from && time < to)
        .map((time) => parts.startOf(time)),
    );
    for (let start = from; start < to; start += parts.width) {
      const end = Math.min(to, start + parts.width);
      const raws = touched.has(start)
        ? this.#raws(probe, start, end).map((raw) => used(raw, unused))
        : this.#extremeRows(probe, start, end);
      for (const raw of raws) parts.take(raw);
    }
  }

  /** The first row with each of the extremes of a part: it is read once for them, and as far as the last of those rows. */
  #extremeRows(probe: number, from: number, to: number): Raw[] {
    const sought = this.#extremes.get(probe, from, to) as Sought;
    let open = openOf(sought);
    const rows: Raw[] = [];
    if (open === 0) return rows;
    for (const raw of this.#withOneOf.iterate(probe, from, to, ...sought) as IterableIterator<Raw>) {
      const found = open & foundIn(raw, sought);
      if (found === 0) continue;
      rows.push(raw);
      open -= found;
      if (open === 0) break;
    }
    return rows;
  }

  #raws(probe: number, from: number, to: number): Raw[] {
    return this.#rows.all(probe, from, to) as Raw[];
  }

  #hourRows(probe: number, from: number, to: number): Raw[] {
    const { fullRate, hours } = this.#folded;
    if (!(from < fullRate.since(probe))) return [];
    return hours.read(probe, from, to).flatMap(({ hour, values: { temperature, humidity } }): Raw[] => [
      [hour + LEAST_AT_ms, temperature?.least ?? null, humidity?.least ?? null],
      [hour + GREATEST_AT_ms, temperature?.greatest ?? null, humidity?.greatest ?? null],
    ]);
  }
}

const byTime = ([one]: Raw, [other]: Raw): number => one - other;

const COLUMNS = [1, 2] as const;
