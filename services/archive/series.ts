/**
 * Readings for a plot: bounded in length, with the minima and maxima of temperature and humidity kept.
 */
import type { FlaggedQuantity } from '../core/watch/flag.js';
import type { Database } from './database.js';

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

/** Whether a value may stand for its part of the span: what a broken sensor says is no minimum. */
export type IsUsed = (time: number, quantity: FlaggedQuantity) => boolean;

type Raw = [time: number, temperature: number | null, humidity: number | null];
type Column = 1 | 2;

interface Counts {
  readonly rows: number;
  readonly temperatures: number;
  readonly humidities: number;
}

/** A minimum and a maximum. */
const EXTREMES = 2;

export class SeriesReader {
  readonly #counts;
  readonly #rows;

  constructor(database: Database) {
    const range = 'FROM reading WHERE probe = ? AND time >= ? AND time < ?';
    this.#counts = database.prepare(
      `SELECT count(*) AS rows, count(temperature) AS temperatures, count(humidity) AS humidities ${range}`,
    );
    this.#rows = database.prepare(`SELECT time, temperature, humidity ${range} ORDER BY time`).raw();
  }

  /**
   * Rows of [from, to) in order of time: all of them where they are no more than `points`, else those with the lowest
   * and the highest used value of each quantity in each of equal parts of the span, with what is not used left out.
   */
  read(probe: number, from: number, to: number, points: number, isUsed: IsUsed = () => true): Series {
    const counts = this.#counts.get(probe, from, to) as Counts;
    const thinned = counts.rows > points;
    if (!thinned) return { rows: (this.#rows.all(probe, from, to) as Raw[]).map(rowOf), thinned };
    const columns = columnsOf(counts);
    const parts = Math.max(1, Math.floor(points / (EXTREMES * columns.length)));
    const width = Math.max(1, Math.ceil((to - from) / parts));
    const rows: SeriesRow[] = [];
    let extremes = new Extremes(columns);
    let end = from + width;
    for (const raw of this.#rows.iterate(probe, from, to) as IterableIterator<Raw>) {
      if (raw[0] >= end) {
        rows.push(...extremes.rows());
        extremes = new Extremes(columns);
        end = from + (Math.floor((raw[0] - from) / width) + 1) * width;
      }
      extremes.take(used(raw, isUsed));
    }
    return { rows: [...rows, ...extremes.rows()], thinned };
  }
}

/** Of the quantities that were measured at all. */
function columnsOf({ temperatures, humidities }: Counts): Column[] {
  const columns: Column[] = [];
  if (temperatures > 0) columns.push(1);
  if (humidities > 0) columns.push(2);
  return columns;
}

const rowOf = ([time, temperature, humidity]: Raw): SeriesRow => ({ time, temperature, humidity });

function used(raw: Raw, isUsed: IsUsed): Raw {
  const [time, temperature, humidity] = raw;
  const cold = temperature !== null && !isUsed(time, 'temperature');
  const moist = humidity !== null && !isUsed(time, 'humidity');
  return cold || moist ? [time, cold ? null : temperature, moist ? null : humidity] : raw;
}

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
      if (!(value >= (this.#lowest[column]?.[column] ?? Number.POSITIVE_INFINITY)))
        this.#lowest[column] = raw;
      if (!(value <= (this.#highest[column]?.[column] ?? Number.NEGATIVE_INFINITY)))
        this.#highest[column] = raw;
    }
  }

  /** In order of time, each once. */
  rows(): SeriesRow[] {
    const raws = [...this.#lowest, ...this.#highest].filter((raw) => raw !== undefined);
    return [...new Set(raws)].sort(([one], [other]) => one - other).map(rowOf);
  }
}
