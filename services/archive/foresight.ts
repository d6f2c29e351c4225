/**
 * What the archive would say of readings, with nothing kept of them: they go into tables that only this connection sees, so
 * that two that contradict each other are found too. The connection may be one for reading only.
 */
import type { Database } from './database.js';
import { FullRate } from './full-rate.js';
import { HourStore } from './hour-store.js';
import { type Put, ReadingStore, type Values } from './reading-store.js';

const TABLES = ['reading', 'apart'] as const;
type Table = (typeof TABLES)[number];

export class Foresight {
  readonly #bring;
  readonly #stores: Readonly<Record<Table, ReadingStore>>;

  constructor(database: Database) {
    for (const table of TABLES)
      database.exec(
        `CREATE TEMP TABLE foreseen_${table} AS SELECT * FROM ${table} WHERE 0;
         CREATE UNIQUE INDEX temp.foreseen_${table}_key ON foreseen_${table} (probe, time)`,
      );
    const bring = (table: Table) =>
      database.prepare(
        `INSERT INTO foreseen_${table} SELECT * FROM ${table} WHERE probe = ? AND time = ? ON CONFLICT DO NOTHING`,
      );
    this.#bring = { reading: bring('reading'), apart: bring('apart') };
    const fullRate = new FullRate(database);
    // Nothing is late in what is not kept.
    const folded = {
      fullRate: { since: (probe: number) => fullRate.since(probe), noteLate: () => undefined },
      hours: new HourStore(database),
    };
    this.#stores = {
      reading: new ReadingStore(database, 'foreseen_reading', undefined, folded),
      apart: new ReadingStore(database, 'foreseen_apart'),
    };
  }

  put(table: Table, probe: number, time: number, values: Values): Put {
    this.#bring[table].run(probe, time);
    return this.#stores[table].put(probe, time, values);
  }
}
