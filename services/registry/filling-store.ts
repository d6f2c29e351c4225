import type { Filling } from '../core/model/filling.js';
import { BedRecordStore } from './bed-record-store.js';
import type { Database } from './database.js';

/** What went into beds when they were filled. */
export class FillingStore extends BedRecordStore<Filling> {
  readonly #ofBed;

  constructor(database: Database) {
    super(database, 'filling');
    this.#ofBed = database.prepare('SELECT document FROM filling WHERE bed = ? ORDER BY at, id').pluck();
  }

  /** All, in order of time. */
  ofBed(bed: string): Filling[] {
    return (this.#ofBed.all(bed) as string[]).map((text) => JSON.parse(text) as Filling);
  }
}
