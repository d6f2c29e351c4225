/** History in the service's own database. */
import { QUANTITIES } from '../../core/model/quantity.js';
import type { Database } from '../database.js';
import type { Archive } from '../index.js';
import type { StoredReading, Values } from '../reading-store.js';
import type { History, ProbeName, Stretch } from './history.js';

/** Rows that are read at a time. */
const PAGE_rows = 10_000;

export class SqliteHistory implements History {
  readonly #database: Database;
  readonly #archive: Pick<Archive, 'keys' | 'readings' | 'fullRate'>;
  readonly #probes;
  readonly #ends;
  readonly #page;

  constructor(database: Database, archive: Pick<Archive, 'keys' | 'readings' | 'fullRate'>) {
    this.#database = database;
    this.#archive = archive;
    this.#probes = database.prepare('SELECT site, probe FROM probe_key ORDER BY site, probe');
    this.#ends = database.prepare(
      'SELECT min(time) AS first, max(time) AS last FROM reading WHERE probe = ?',
    );
    this.#page = database.prepare(
      `SELECT time, temperature, humidity, battery, charge FROM reading
       WHERE probe = ? AND time >= ? AND time < ? ORDER BY time LIMIT ${PAGE_rows}`,
    );
  }

  async probes(): Promise<readonly ProbeName[]> {
    return this.#probes.all() as ProbeName[];
  }

  async span(name: ProbeName): Promise<Stretch | undefined> {
    const { first, last } = this.#ends.get(this.#keyOf(name)) as {
      first: number | null;
      last: number | null;
    };
    return first === null || last === null ? undefined : { from: first, to: last + 1 };
  }

  since({ site, probe }: ProbeName): number {
    const key = this.#archive.keys.find(site, probe);
    return key === undefined ? 0 : this.#archive.fullRate.since(key);
  }

  async *pages(name: ProbeName, { from, to }: Stretch): AsyncGenerator<StoredReading[]> {
    let next = from;
    for (;;) {
      const page = this.#page.all(this.#keyOf(name), next, to) as StoredReading[];
      if (page.length > 0) yield page;
      if (page.length < PAGE_rows) return;
      next = (page.at(-1)?.time ?? to) + 1;
    }
  }

  async put({ site, probe }: ProbeName, readings: readonly StoredReading[]): Promise<void> {
    const { keys, readings: store } = this.#archive;
    this.#database
      .transaction(() => {
        const key = keys.keyOf(site, probe);
        for (const reading of readings) store.put(key, reading.time, valuesOf(reading));
      })
      .immediate();
  }

  /** -1 is the key of none. */
  #keyOf({ site, probe }: ProbeName): number {
    return this.#archive.keys.find(site, probe) ?? -1;
  }
}

function valuesOf(reading: StoredReading): Values {
  const values: Values = {};
  for (const quantity of QUANTITIES) {
    const value = reading[quantity];
    if (value !== null) values[quantity] = value;
  }
  return values;
}
