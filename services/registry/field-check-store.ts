import type { FieldCheckRecord } from '../core/model/field-check.js';
import type { Database } from './database.js';

/** Checks of buried probes against a travelling reference. */
export class FieldCheckStore {
  readonly #add;
  readonly #list;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO field_check (id, site, probe, at, document, written_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#list = database
      .prepare(
        `SELECT document FROM field_check WHERE (? IS NULL OR site = ?) AND (? IS NULL OR probe = ?)
         ORDER BY at DESC, id LIMIT ?`,
      )
      .pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(check: FieldCheckRecord, writtenAt: number): void {
    const { id, site, probe, to } = check;
    this.#add.run(id, site, probe, to, JSON.stringify(check), writtenAt);
  }

  /** Newest first. */
  list(site: string | undefined, probe: string | undefined, limit: number): FieldCheckRecord[] {
    const [ofSite, ofProbe] = [site ?? null, probe ?? null];
    return (this.#list.all(ofSite, ofSite, ofProbe, ofProbe, limit) as string[]).map(
      (text) => JSON.parse(text) as FieldCheckRecord,
    );
  }
}
