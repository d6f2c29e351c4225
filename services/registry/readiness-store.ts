import type { OverrideRecord, ReadinessRecord } from '../core/model/readiness.js';
import { BedRecordStore } from './bed-record-store.js';
import type { Database } from './database.js';

/** Who found a bed ready or not, and who had it filled all the same. */
export class ReadinessStore {
  readonly #records;
  readonly #override;
  readonly #overrides;

  constructor(database: Database) {
    this.#records = new BedRecordStore<ReadinessRecord>(database, 'readiness');
    this.#override = database.prepare(
      'INSERT INTO readiness_override (readiness, at, document, written_at) VALUES (?, ?, ?, ?)',
    );
    this.#overrides = database
      .prepare('SELECT document FROM readiness_override WHERE readiness = ? ORDER BY at, rowid')
      .pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(site: string, record: ReadinessRecord, writtenAt: number): void {
    this.#records.add(site, record, writtenAt);
  }

  /** @param writtenAt wall clock, ms */
  override(id: string, override: OverrideRecord, writtenAt: number): void {
    this.#override.run(id, override.at, JSON.stringify(override), writtenAt);
  }

  get(id: string): ReadinessRecord | undefined {
    const record = this.#records.get(id);
    return record && this.#whole(record);
  }

  /** The last one of an event time, ms, or before. */
  upTo(bed: string, at: number): ReadinessRecord | undefined {
    const record = this.#records.upTo(bed, at);
    return record && this.#whole(record);
  }

  /** Newest first. */
  list(bed: string, limit: number): ReadinessRecord[] {
    return this.#records.list(bed, limit).map((record) => this.#whole(record));
  }

  #whole(record: ReadinessRecord): ReadinessRecord {
    const texts = this.#overrides.all(record.id) as string[];
    return { ...record, overrides: texts.map((text) => JSON.parse(text) as OverrideRecord) };
  }
}
