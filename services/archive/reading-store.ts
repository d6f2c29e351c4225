/**
 * Raw readings at rest, one row for a probe and time. The first value of a quantity stands for ever.
 */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import type { Sample } from '../core/watch/watch.js';
import type { Database } from './database.js';
import type { SpoolStore } from './influx/spool-store.js';

export type Values = Partial<Record<Quantity, number>>;

export interface StoredReading {
  readonly time: number;
  readonly temperature: number | null;
  readonly humidity: number | null;
  readonly battery: number | null;
  readonly charge: number | null;
}

/** What became of a row: how many values are new, how many were there already, and which came with another value. */
export interface Put {
  readonly kept: number;
  readonly duplicates: number;
  readonly conflicts: readonly {
    readonly quantity: Quantity;
    readonly kept: number;
    readonly refused: number;
  }[];
}

const NO_CONFLICTS: Put['conflicts'] = [];

/** Rows of a probe in which its newest values are looked for: a probe may send its quantities apart. */
const LOOKED_BACK_rows = 50;

export type ReadingTable = 'reading' | 'apart';

/** Rows of one of the two tables of readings. */
export class ReadingStore {
  readonly #spool: SpoolStore | undefined;
  readonly #insert;
  readonly #find;
  readonly #fill;
  readonly #latest;
  readonly #first;
  readonly #last;
  readonly #samples;
  readonly #dailyMeans;
  readonly #hourlyMeans;

  /** @param spool told of every reading that is new or gains a value */
  constructor(database: Database, table: ReadingTable, spool?: SpoolStore) {
    this.#spool = spool;
    this.#insert = database.prepare(
      `INSERT INTO ${table} (probe, time, temperature, humidity, battery, charge) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
    );
    this.#find = database.prepare(`SELECT * FROM ${table} WHERE probe = ? AND time = ?`);
    this.#fill = database.prepare(
      `UPDATE ${table} SET temperature = ?, humidity = ?, battery = ?, charge = ? WHERE probe = ? AND time = ?`,
    );
    const newest = (quantity: Quantity): string =>
      `(SELECT ${quantity} FROM last WHERE ${quantity} IS NOT NULL ORDER BY time DESC LIMIT 1) AS ${quantity}`;
    this.#latest = database.prepare(
      `WITH last AS (SELECT * FROM ${table} WHERE probe = ? ORDER BY time DESC LIMIT ${LOOKED_BACK_rows})
       SELECT time, ${QUANTITIES.map(newest).join(', ')} FROM last ORDER BY time DESC LIMIT 1`,
    );
    this.#first = database
      .prepare(`SELECT time FROM ${table} WHERE probe = ? AND time >= ? ORDER BY time LIMIT 1`)
      .pluck();
    this.#last = database
      .prepare(`SELECT time FROM ${table} WHERE probe = ? AND time < ? ORDER BY time DESC LIMIT 1`)
      .pluck();
    this.#samples = database
      .prepare(
        `SELECT time, temperature, humidity FROM ${table} WHERE probe = ? AND time >= ? AND time < ?
         AND (temperature IS NOT NULL OR humidity IS NOT NULL) ORDER BY time`,
      )
      .raw();
    this.#dailyMeans = database.prepare(
      `SELECT time / ${DAY_ms} * ${DAY_ms} AS at, avg(temperature) AS mean FROM ${table}
       WHERE probe = @probe AND time >= @from AND time < @to AND temperature >= @least AND temperature <= @greatest
       GROUP BY 1 ORDER BY 1`,
    );
    this.#hourlyMeans = database
      .prepare(
        `SELECT time / ${HOUR_ms} * ${HOUR_ms}, avg(temperature) FROM ${table}
         WHERE probe = @probe AND time >= @from AND time < @to AND temperature >= @least AND temperature <= @greatest
         AND NOT EXISTS (SELECT 1 FROM flag WHERE flag.probe = ${table}.probe AND flag.time = ${table}.time
           AND quantity = 'temperature' AND bed = @bed)
         GROUP BY 1 ORDER BY 1`,
      )
      .raw();
  }

  /** Keeps what is new of one probe's values at one time. */
  put(probe: number, time: number, values: Values): Put {
    const { temperature = null, humidity = null, battery = null, charge = null } = values;
    const { changes } = this.#insert.run(probe, time, temperature, humidity, battery, charge);
    const put =
      changes === 1
        ? { kept: countOf(values), duplicates: 0, conflicts: NO_CONFLICTS }
        : this.#merge(probe, time, values);
    if (put.kept > 0) this.#spool?.note(probe, time);
    return put;
  }

  #merge(probe: number, time: number, values: Values): Put {
    const row = this.#find.get(probe, time) as StoredReading;
    const merged: Record<Quantity, number | null> = { ...row };
    const conflicts: { quantity: Quantity; kept: number; refused: number }[] = [];
    let kept = 0;
    let duplicates = 0;
    for (const quantity of QUANTITIES) {
      const value = values[quantity];
      if (value === undefined) continue;
      const there = row[quantity];
      if (there === null) {
        merged[quantity] = value;
        kept += 1;
      } else if (there === value) duplicates += 1;
      else conflicts.push({ quantity, kept: there, refused: value });
    }
    if (kept > 0)
      this.#fill.run(merged.temperature, merged.humidity, merged.battery, merged.charge, probe, time);
    return { kept, duplicates, conflicts };
  }

  /** Time of the newest row of a probe, with the newest value of each quantity in its last rows. */
  latest(probe: number): StoredReading | undefined {
    return this.#latest.get(probe) as StoredReading | undefined;
  }

  /** Time of the first row at or after a time. */
  firstTime(probe: number, from: number): number | undefined {
    return this.#first.get(probe, from) as number | undefined;
  }

  /** Time of the last row before a time. */
  lastTime(probe: number, before: number): number | undefined {
    return this.#last.get(probe, before) as number | undefined;
  }

  /** What a probe measured in [from, to), in order of time; rows without temperature and humidity are left out. */
  samples(probe: number, from: number, to: number): Sample[] {
    return (this.#samples.all(probe, from, to) as RawSample[]).map(sampleOf);
  }

  /** Mean raw temperatures of days in UTC within [from, to), °C, of values within the range; in order of time. */
  dailyMeans(
    probe: number,
    { from, to }: { from: number; to: number },
    { least, greatest }: { least: number; greatest: number },
  ): { at: number; mean: number }[] {
    return this.#dailyMeans.all({ probe, from, to, least, greatest }) as { at: number; mean: number }[];
  }

  /**
   * Mean raw temperatures of hours within [from, to), °C, of values within the range that the bed's watch has not
   * flagged; in order of time.
   */
  hourlyMeans(
    probe: number,
    bed: string,
    { from, to }: { from: number; to: number },
    { least, greatest }: { least: number; greatest: number },
  ): [hour: number, mean: number][] {
    const rows = this.#hourlyMeans.all({ probe, bed, from, to, least, greatest });
    return rows as [hour: number, mean: number][];
  }
}

type RawSample = [time: number, temperature: number | null, humidity: number | null];

function sampleOf([at, temperature, humidity]: RawSample): Sample {
  if (humidity === null) return temperature === null ? { at } : { at, temperature };
  return temperature === null ? { at, humidity } : { at, temperature, humidity };
}

function countOf(values: Values): number {
  let count = 0;
  for (const quantity of QUANTITIES) if (values[quantity] !== undefined) count += 1;
  return count;
}
