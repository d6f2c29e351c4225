/** A span in equal parts, and the rows that stand for each: those of the least and the greatest of each quantity. */
import type { FlaggedQuantity } from '../core/watch/flag.js';

export interface SeriesRow {
  readonly time: number;
  readonly temperature: number | null;
  readonly humidity: number | null;
}

export interface SeriesSpan {
  readonly from: number;
  readonly to: number;
}

/** Times of values that may not stand for their part of the span: what a broken sensor says is no minimum. */
export type Unused = Readonly<Record<FlaggedQuantity, ReadonlySet<number>>>;

export const ALL_USED: Unused = { temperature: new Set(), humidity: new Set() };

/** How many values of each quantity a span has. */
export interface ValueCounts {
  readonly temperatures: number;
  readonly humidities: number;
}

/** As the driver gives a row. */
export type Raw = [time: number, temperature: number | null, humidity: number | null];
export type Column = 1 | 2;

/** A minimum and a maximum. */
const EXTREMES = 2;

export const rowOf = ([time, temperature, humidity]: Raw): SeriesRow => ({ time, temperature, humidity });

/** So many parts that their rows are no more than `points`. */
export function partsOf({ from, to }: SeriesSpan, points: number, columns: readonly Column[]): Parts {
  const count = Math.max(1, Math.floor(points / (EXTREMES * Math.max(1, columns.length))));
  return new Parts(columns, from, Math.max(1, Math.ceil((to - from) / count)));
}

/** Of the quantities that were measured at all. */
function columnsOf({ temperatures, humidities }: ValueCounts): Column[] {
  const columns: Column[] = [];
  if (temperatures > 0) columns.push(1);
  if (humidities > 0) columns.push(2);
  return columns;
}

/** Takes rows one by one, in any order, and keeps those that stand for the parts of a span. */
export class Thinning {
  readonly #parts: Parts;
  readonly #unused: Unused;

  /** @param points that are kept at the most */
  constructor(counts: ValueCounts, span: SeriesSpan, points: number, unused: Unused) {
    this.#parts = partsOf(span, points, columnsOf(counts));
    this.#unused = unused;
  }

  take(row: SeriesRow): void {
    this.#parts.take(used([row.time, row.temperature, row.humidity], this.#unused));
  }

  rows(): SeriesRow[] {
    return this.#parts.rows();
  }
}

export function used(raw: Raw, unused: Unused): Raw {
  const [time, temperature, humidity] = raw;
  const cold = unused.temperature.has(time);
  const moist = unused.humidity.has(time);
  return cold || moist ? [time, cold ? null : temperature, moist ? null : humidity] : raw;
}

/** Equal parts of a span, each with the rows that stand for it. */
export class Parts {
  readonly #columns: readonly Column[];
  readonly #from: number;
  readonly #parts = new Map<number, Extremes>();
  /** ms */
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
