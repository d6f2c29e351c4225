import type { Database } from './database.js';

/** One message of a drill. */
export interface DrillMessage {
  readonly person: string;
  readonly via: string;
  /** In the outbox. */
  readonly key: string;
}

export interface Drill {
  readonly id: string;
  readonly site: string;
  readonly bed: string;
  /** Wall clock, ms. */
  readonly at: number;
  readonly by: string;
  readonly messages: readonly DrillMessage[];
  /** People who have no way that can be used. */
  readonly without: readonly string[];
}

export class DrillStore {
  readonly #add;
  readonly #get;
  readonly #newest;

  constructor(database: Database) {
    this.#add = database.prepare('INSERT INTO drill (id, site, bed, at, document) VALUES (?, ?, ?, ?, ?)');
    this.#get = database.prepare('SELECT document FROM drill WHERE id = ?').pluck();
    this.#newest = database.prepare('SELECT max(at) FROM drill WHERE site = ? AND bed = ?').pluck();
  }

  add(drill: Drill): void {
    const { id, site, bed, at } = drill;
    this.#add.run(id, site, bed, at, JSON.stringify(drill));
  }

  get(id: string): Drill | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Drill);
  }

  /** When the last one of a bed was, ms. */
  newestAt(site: string, bed: string): number | undefined {
    return (this.#newest.get(site, bed) as number | null) ?? undefined;
  }
}
