import type { Database } from './database.js';

/** Tables of records of a bed that are added and never changed. */
export type BedRecordTable = 'filling' | 'sand_test' | 'readiness';

interface BedRecord {
  readonly id: string;
  readonly bed: string;
  /** Event time, ms. */
  readonly at: number;
}

/** What was found of a bed at one time, as it was found. */
export class BedRecordStore<Kept extends BedRecord> {
  readonly #add;
  readonly #get;
  readonly #list;
  readonly #upTo;

  constructor(database: Database, table: BedRecordTable) {
    this.#add = database.prepare(
      `INSERT INTO ${table} (id, site, bed, at, document, written_at) VALUES (?, ?, ?, ?, ?, ?)`,
    );
    this.#get = database.prepare(`SELECT document FROM ${table} WHERE id = ?`).pluck();
    this.#list = database
      .prepare(`SELECT document FROM ${table} WHERE bed = ? ORDER BY at DESC, written_at DESC, id LIMIT ?`)
      .pluck();
    this.#upTo = database
      .prepare(
        `SELECT document FROM ${table} WHERE bed = ? AND at <= ? ORDER BY at DESC, written_at DESC, id LIMIT 1`,
      )
      .pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(site: string, record: Kept, writtenAt: number): void {
    const { id, bed, at } = record;
    this.#add.run(id, site, bed, at, JSON.stringify(record), writtenAt);
  }

  get(id: string): Kept | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Kept);
  }

  /** The last one of an event time, ms, or before. */
  upTo(bed: string, at: number): Kept | undefined {
    const text = this.#upTo.get(bed, at) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Kept);
  }

  /** Newest first. */
  list(bed: string, limit: number): Kept[] {
    return (this.#list.all(bed, limit) as string[]).map((text) => JSON.parse(text) as Kept);
  }
}
