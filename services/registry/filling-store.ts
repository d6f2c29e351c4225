import type { Filling } from '../core/model/filling.js';
import type { Database } from './database.js';

/** What went into beds when they were filled. */
export class FillingStore {
  readonly #add;
  readonly #get;
  readonly #ofBed;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO filling (id, site, bed, at, document, written_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    this.#get = database.prepare('SELECT document FROM filling WHERE id = ?').pluck();
    this.#ofBed = database.prepare('SELECT document FROM filling WHERE bed = ? ORDER BY at, id').pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(site: string, filling: Filling, writtenAt: number): void {
    const { id, bed, at } = filling;
    this.#add.run(id, site, bed, at, JSON.stringify(filling), writtenAt);
  }

  get(id: string): Filling | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Filling);
  }

  /** In order of time. */
  ofBed(bed: string): Filling[] {
    return (this.#ofBed.all(bed) as string[]).map((text) => JSON.parse(text) as Filling);
  }
}
