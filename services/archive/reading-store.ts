/**
 * Raw readings at rest, one row for a probe and time. The first value of a quantity stands for ever.
 */
import { QUANTITIES, type Quantity } from '../core/model/quantity.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { Sample } from '../core/watch/watch.js';
import type { Database } from './database.js';
import type { FullRate } from './full-rate.js';
import type { HourStore } from './hour-store.js';
import type { ReadingHour } from './hour-values.js';
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
const NOTHING_KEPT: Put = { kept: 0, duplicates: 0, conflicts: NO_CONFLICTS };

/** Rows of a probe in which its newest values are looked for: a probe may send its quantities apart. */
const LOOKED_BACK_rows = 50;

export type ReadingTable = 'reading' | 'apart' | 'foreseen_reading' | 'foreseen_apart';

/** What is kept of the time before readings are here one by one. */
export interface FoldedReadings {
  readonly fullRate: Pick<FullRate, 'since' | 'noteLate'>;
  readonly hours: HourStore;
}

/** Rows of one of the two tables of readings. */
export class ReadingStore {
  readonly #spool: SpoolStore | undefined;
  readonly #folded: FoldedReadings | undefined;
  readonly #insert;
  readonly #find;
  readonly #fill;
  readonly #latest;
  readonly #first;
  readonly #last;
  readonly #samples;

  /**
   * @param spool told of every reading that is new or gains a value
   * @param folded where older readings of the table are kept by hours
   */
  constructor(database: Database, table: ReadingTable, spool?: SpoolStore, folded?: FoldedReadings) {
    this.#spool = spool;
    this.#folded = folded;
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
  }

  /**
   * Keeps what is new of one probe's values at one time. Of a time whose readings are in their hours it is known what
   * was measured, not which value: what comes again is a duplicate then, whatever it says.
   */
  put(probe: number, time: number, values: Values): Put {
    const { fullRate } = this.#folded ?? {};
    if (fullRate === undefined || !(time < fullRate.since(probe))) return this.#keep(probe, time, values);
    const fresh = this.#notFolded(probe, time, values);
    const put = countOf(fresh) > 0 ? this.#keep(probe, time, fresh) : NOTHING_KEPT;
    if (put.kept > 0) fullRate.noteLate(probe, hourOf(time));
    return { ...put, duplicates: put.duplicates + countOf(values) - countOf(fresh) };
  }

  #notFolded(probe: number, time: number, values: Values): Values {
    const isFolded = this.#folded?.hours.quantitiesAt(probe, time);
    const fresh = QUANTITIES.filter((quantity) => values[quantity] !== undefined && !isFolded?.(quantity));
    return Object.fromEntries(fresh.map((quantity) => [quantity, values[quantity]]));
  }

  #keep(probe: number, time: number, values: Values): Put {
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

  /** Time of the first reading at or after a time. */
  firstTime(probe: number, from: number): number | undefined {
    const times = [
      this.#first.get(probe, from) as number | undefined,
      this.#folded?.hours.firstTime(probe, from),
    ];
    return times.reduce((one, other) => (one === undefined || (other ?? one) < one ? other : one));
  }

  /** Time of the last reading before a time. */
  lastTime(probe: number, before: number): number | undefined {
    const times = [
      this.#last.get(probe, before) as number | undefined,
      this.#folded?.hours.lastTime(probe, before),
    ];
    return times.reduce((one, other) => (one === undefined || (other ?? one) > one ? other : one));
  }

  /**
   * What a probe measured in [from, to), in order of time; rows without temperature and humidity are left out. An hour
   * that is not here one by one gives its means, as of its middle.
   */
  samples(probe: number, from: number, to: number): Sample[] {
    const samples = (this.#samples.all(probe, from, to) as RawSample[]).map(sampleOf);
    if (!this.#folded || !(from < this.#folded.fullRate.since(probe))) return samples;
    const hours = this.#folded.hours.read(probe, from, to).flatMap(meanSample);
    return [...hours, ...samples].sort((one, other) => one.at - other.at);
  }
}

type RawSample = [time: number, temperature: number | null, humidity: number | null];

function sampleOf([at, temperature, humidity]: RawSample): Sample {
  if (humidity === null) return temperature === null ? { at } : { at, temperature };
  return temperature === null ? { at, humidity } : { at, temperature, humidity };
}

function meanSample({ hour, values: { temperature, humidity } }: ReadingHour): Sample[] {
  if (!temperature && !humidity) return [];
  return [sampleOf([hour + HOUR_ms / 2, temperature?.mean ?? null, humidity?.mean ?? null])];
}

function countOf(values: Values): number {
  let count = 0;
  for (const quantity of QUANTITIES) if (values[quantity] !== undefined) count += 1;
  return count;
}
