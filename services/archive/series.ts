/**
 * Readings for a plot: bounded in length, with the minima and maxima of temperature and humidity kept.
 */

import { MINUTE_ms } from '../core/model/time.js';
import type { FlaggedQuantity } from '../core/watch/flag.js';
import type { Database } from './database.js';
import type { FoldedReadings } from './reading-store.js';

export interface SeriesRow {
  readonly time: number;
  readonly temperature: number | null;
  readonly humidity: number | null;
}

export interface Series {
  readonly rows: readonly SeriesRow[];
  /** Whether these are fewer rows than were measured. */
  readonly thinned: boolean;
}

/** Times of values that may not stand for their part of the span: what a broken sensor says is no minimum. */
export type Unused = Readonly<Record<FlaggedQuantity, ReadonlySet<number>>>;

export const ALL_USED: Unused = { temperature: new Set(), humidity: new Set() };

type Raw = [time: number, temperature: number | null, humidity: number | null];
type Column = 1 | 2;

/** How many values of each quantity a span has. */
export interface ValueCounts {
  readonly temperatures: number;
  readonly humidities: number;
}

interface Counts extends ValueCounts {
  readonly rows: number;
}

/** The driver binds numbers as REAL: whole ones must be made whole again, or a part would be a fraction. */
const FROM = 'cast(@from AS INTEGER)';
const WIDTH = 'cast(@width AS INTEGER)';

/** The first row of a part with one of its extremes. */
const timeWith = (quantity: string, extreme: string): string =>
  `(SELECT time FROM reading WHERE probe = @probe AND time >= begins AND time < min(@to, begins + ${WIDTH})
    AND ${quantity} = ${extreme} ORDER BY time LIMIT 1)`;

/** In each part the rows of the least and the greatest of each quantity: SQLite reads a part twice at the most. */
const EXTREME_ROWS = `
  WITH part AS MATERIALIZED (
    SELECT ${FROM} + (time - ${FROM}) / ${WIDTH} * ${WIDTH} AS begins,
      min(temperature) AS coldest, max(temperature) AS warmest, min(humidity) AS driest, max(humidity) AS moistest
    FROM reading WHERE probe = @probe AND time >= @from AND time < @to GROUP BY 1
  )
  SELECT reading.time, temperature, humidity FROM part CROSS JOIN reading WHERE probe = @probe AND reading.time IN (
    ${timeWith('temperature', 'coldest')}, ${timeWith('temperature', 'warmest')},
    ${timeWith('humidity', 'driest')}, ${timeWith('humidity', 'moistest')}
  )`;

/** Where in its hour the least and the greatest value are shown: when they were measured is not known any more. */
const LEAST_AT_ms = 20 * MINUTE_ms;
const GREATEST_AT_ms = 40 * MINUTE_ms;

export interface SeriesSpan {
  readonly from: number;
  readonly to: number;
}

export class SeriesReader {
  readonly #folded: FoldedReadings;
  readonly #counts;
  readonly #rows;
  readonly #extremes;

  constructor(database: Database, folded: FoldedReadings) {
    this.#folded = folded;
    const range = 'FROM reading WHERE probe = ? AND time >= ? AND time < ?';
    this.#counts = database.prepare(
      `SELECT count(*) AS rows, count(temperature) AS temperatures, count(humidity) AS humidities ${range}`,
    );
    this.#rows = database.prepare(`SELECT time, temperature, humidity ${range} ORDER BY time`).raw();
    this.#extremes = database.prepare(EXTREME_ROWS).raw();
  }

  /**
   * Rows of [from, to) in order of time: all of them where they are no more than `points`, else those with the lowest
   * and the highest used value of each quantity in each of equal parts of the span, with what is not used left out. An
   * hour that is not here one by one gives a row of its least values and one of its greatest.
   */
  read(probe: number, from: number, to: number, points: number, unused: Unused = ALL_USED): Series {
    const hours = this.#hourRows(probe, from, to);
    const counts = countsWith(this.#counts.get(probe, from, to) as Counts, hours);
    if (!(counts.rows > points)) {
      const rows = [...hours, ...this.#raws(probe, from, to)].sort(byTime).map(rowOf);
      return { rows, thinned: hours.length > 0 };
    }
    const parts = partsOf(counts, { from, to }, points);
    for (const raw of hours) parts.take(raw);
    this.#takeExtremes(parts, { probe, from, to }, unused);
    return { rows: parts.rows(), thinned: true };
  }

  /** By SQL; where values of a part are not used, the rows of that part one by one. */
  #takeExtremes(
    parts: Parts,
    { probe, from, to }: SeriesSpan & { readonly probe: number },
    unused: Unused,
  ): void {
    const touched = new Set(
      [...unused.temperature, ...unused.humidity]
        .filter((time) => time >= from && time < to)
        .map((time) => parts.startOf(time)),
    );
    for (const raw of this.#extremes.all({ probe, from, to, width: parts.width }) as Raw[])
      if (!touched.has(parts.startOf(raw[0]))) parts.take(raw);
    for (const start of touched)
      for (const raw of this.#raws(probe, start, Math.min(to, start + parts.width)))
        parts.take(used(raw, unused));
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

function countsWith({ rows, temperatures, humidities }: Counts, hours: readonly Raw[]): Counts {
  const has = (column: Column): number => hours.filter((raw) => raw[column] !== null).length;
  return { rows: rows + hours.length, temperatures: temperatures + has(1), humidities: humidities + has(2) };
}

/** A minimum and a maximum. */
const EXTREMES = 2;

/** Of the quantities that were measured at all. */
function columnsOf({ temperatures, humidities }: ValueCounts): Column[] {
  const columns: Column[] = [];
  if (temperatures > 0) columns.push(1);
  if (humidities > 0) columns.push(2);
  return columns;
}

/** As many as the points allow. */
function partsOf(counts: ValueCounts, { from, to }: SeriesSpan, points: number): Parts {
  const columns = columnsOf(counts);
  const count = Math.max(1, Math.floor(points / (EXTREMES * columns.length)));
  return new Parts(columns, from, Math.max(1, Math.ceil((to - from) / count)));
}

/** Takes rows one by one, in any order, and keeps those that stand for the parts of a span. */
export class Thinning {
  readonly #parts: Parts;
  readonly #unused: Unused;

  /** @param points that are kept at the most */
  constructor(counts: ValueCounts, span: SeriesSpan, points: number, unused: Unused) {
    this.#parts = partsOf(counts, span, points);
    this.#unused = unused;
  }

  take(row: SeriesRow): void {
    this.#parts.take(used([row.time, row.temperature, row.humidity], this.#unused));
  }

  rows(): SeriesRow[] {
    return this.#parts.rows();
  }
}

const rowOf = ([time, temperature, humidity]: Raw): SeriesRow => ({ time, temperature, humidity });

function used(raw: Raw, unused: Unused): Raw {
  const [time, temperature, humidity] = raw;
  const cold = unused.temperature.has(time);
  const moist = unused.humidity.has(time);
  return cold || moist ? [time, cold ? null : temperature, moist ? null : humidity] : raw;
}

/** Equal parts of a span, each with the rows that stand for it. */
class Parts {
  readonly #columns: readonly Column[];
  readonly #from: number;
  readonly #parts = new Map<number, Extremes>();
  readonly width: number;

  constructor(columns: readonly Column[], from: number, width: number) {
    this.#columns = columns;
    this.#from = from;
    this.width = width;
  }

  /** Start of the part in which a time lies. */
  startOf(time: number): number {
    return this.#from + Math.floor((time - this.#from) / this.width) * this.width;
  }

  take(raw: Raw): void {
    const start = this.startOf(raw[0]);
    const extremes = this.#parts.get(start) ?? new Extremes(this.#columns);
    this.#parts.set(start, extremes);
    extremes.take(raw);
  }

  /** In order of time. */
  rows(): SeriesRow[] {
    const starts = [...this.#parts].sort(([one], [other]) => one - other);
    return starts.flatMap(([, extremes]) => extremes.rows());
  }
}

/** Whether a value is less, or as great and measured before: rows of a part do not come in order. */
const isBefore = (value: number, [time]: Raw, other: number | null, [otherTime]: Raw): boolean =>
  value < (other as number) || (value === other && time < otherTime);

/** The rows of one part of the span that stand for it. */
class Extremes {
  readonly #columns: readonly Column[];
  readonly #lowest: (Raw | undefined)[] = [];
  readonly #highest: (Raw | undefined)[] = [];

  constructor(columns: readonly Column[]) {
    this.#columns = columns;
  }

  take(raw: Raw): void {
    for (const column of this.#columns) {
      const value = raw[column];
      if (value === null) continue;
      const [lowest, highest] = [this.#lowest[column], this.#highest[column]];
      if (!lowest || isBefore(value, raw, lowest[column], lowest)) this.#lowest[column] = raw;
      if (!highest || isBefore(-value, raw, -(highest[column] as number), highest))
        this.#highest[column] = raw;
    }
  }

  /** In order of time, each once. */
  rows(): SeriesRow[] {
    const raws = [...this.#lowest, ...this.#highest].filter((raw) => raw !== undefined);
    return [...new Set(raws)].sort(([one], [other]) => one - other).map(rowOf);
  }
}
