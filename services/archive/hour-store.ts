/** Readings by hours, of the time from which they are not kept one by one. */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { Database } from './database.js';
import type { HourValues, ReadingHour } from './hour-values.js';
import { bitOf, decodeTimes } from './times-code.js';

type Cell = number | null | Uint8Array;

const PARTS = ['count', 'least', 'mean', 'greatest'] as const;
const COLUMNS = [
  'hour',
  ...QUANTITIES.flatMap((quantity) => PARTS.map((part) => `${quantity}_${part}`)),
  'times',
];

/** Hours at either end of a span in which a first or last time is looked for. */
const EDGE_hours = 2;

export class HourStore {
  readonly #put;
  readonly #get;
  readonly #read;
  readonly #times;
  readonly #first;
  readonly #last;

  constructor(database: Database) {
    this.#put = database.prepare(
      `INSERT OR REPLACE INTO reading_hour (probe, ${COLUMNS.join(', ')}) VALUES (?, ${COLUMNS.map(() => '?').join(', ')})`,
    );
    const select = `SELECT ${COLUMNS.join(', ')} FROM reading_hour WHERE probe = ?`;
    this.#get = database.prepare(`${select} AND hour = ?`).raw();
    this.#read = database.prepare(`${select} AND hour >= ? AND hour <= ? - ${HOUR_ms} ORDER BY hour`).raw();
    const times = 'SELECT hour, times FROM reading_hour WHERE probe = ?';
    this.#times = database.prepare('SELECT times FROM reading_hour WHERE probe = ? AND hour = ?').pluck();
    this.#first = database.prepare(`${times} AND hour >= ? ORDER BY hour LIMIT ${EDGE_hours}`).raw();
    this.#last = database.prepare(`${times} AND hour < ? ORDER BY hour DESC LIMIT ${EDGE_hours}`).raw();
  }

  put(probe: number, { hour, values, times }: ReadingHour): void {
    const cells = QUANTITIES.flatMap((quantity) => PARTS.map((part) => values[quantity]?.[part] ?? null));
    this.#put.run(probe, hour, ...cells, times);
  }

  get(probe: number, hour: number): ReadingHour | undefined {
    const row = this.#get.get(probe, hour) as Cell[] | undefined;
    return row && hourFrom(row);
  }

  /** Hours that lie within [from, to) as a whole, in order: of one in which the span begins or ends nobody knows what is in it. */
  read(probe: number, from: number, to: number): ReadingHour[] {
    return (this.#read.all(probe, from, to) as Cell[][]).map(hourFrom);
  }

  /** Whether a quantity of a time is in its hour. */
  quantitiesAt(probe: number, time: number): (quantity: Quantity) => boolean {
    const hour = hourOf(time);
    const code = this.#times.get(probe, hour) as Uint8Array | undefined;
    const found = code && decodeTimes(code).find(([offset_ms]) => offset_ms === time - hour);
    return (quantity) => found !== undefined && (found[1] & bitOf(quantity)) !== 0;
  }

  /** The first time at or after one that is in an hour. */
  firstTime(probe: number, from: number): number | undefined {
    return this.#timesOf(this.#first, probe, hourOf(from)).find((time) => time >= from);
  }

  /** The last time before one that is in an hour. */
  lastTime(probe: number, before: number): number | undefined {
    return this.#timesOf(this.#last, probe, before).findLast((time) => time < before);
  }

  #timesOf(statement: { all(...bound: unknown[]): unknown[] }, probe: number, edge: number): number[] {
    const rows = statement.all(probe, edge) as [number, Uint8Array][];
    return rows
      .flatMap(([hour, code]) => decodeTimes(code).map(([offset_ms]) => hour + offset_ms))
      .sort((one, other) => one - other);
  }
}

function hourFrom(row: Cell[]): ReadingHour {
  const values: Partial<Record<Quantity, HourValues>> = {};
  QUANTITIES.forEach((quantity, index) => {
    const [count, least, mean, greatest] = row.slice(1 + index * PARTS.length) as number[];
    if (count !== null && count !== undefined)
      values[quantity] = { count, least, mean, greatest } as HourValues;
  });
  return { hour: row[0] as number, values, times: row.at(-1) as Uint8Array };
}
