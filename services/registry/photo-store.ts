import type { Database } from './database.js';

export interface PhotoRow {
  readonly name: string;
  readonly mediaType: string;
  readonly size_bytes: number;
}

export interface KeptPhoto extends PhotoRow {
  readonly bytes: Buffer;
}

/** Pictures that were taken at inspections. */
export class PhotoStore {
  readonly #add;
  readonly #get;
  readonly #list;
  readonly #total;

  constructor(database: Database) {
    this.#add = database.prepare(
      'INSERT INTO photo (inspection, name, media_type, size, bytes, written_at) VALUES (?, ?, ?, ?, ?, ?)',
    );
    const columns = 'name, media_type AS mediaType, size AS size_bytes';
    this.#get = database.prepare(`SELECT ${columns}, bytes FROM photo WHERE inspection = ? AND name = ?`);
    this.#list = database.prepare(`SELECT ${columns} FROM photo WHERE inspection = ? ORDER BY name`);
    this.#total = database.prepare('SELECT coalesce(sum(size), 0) FROM photo').pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(
    inspection: string,
    { name, mediaType, bytes }: Omit<KeptPhoto, 'size_bytes'>,
    writtenAt: number,
  ): void {
    this.#add.run(inspection, name, mediaType, bytes.length, bytes, writtenAt);
  }

  get(inspection: string, name: string): KeptPhoto | undefined {
    return this.#get.get(inspection, name) as KeptPhoto | undefined;
  }

  /** By name. */
  list(inspection: string): PhotoRow[] {
    return this.#list.all(inspection) as PhotoRow[];
  }

  /** Of all pictures together, bytes. */
  total_bytes(): number {
    return this.#total.get() as number;
  }
}
