import type { Database } from './database.js';

/** What the service must remember of itself from one start to the next. */
export class OwnStore {
  readonly #get;
  readonly #set;

  constructor(database: Database) {
    this.#get = database.prepare('SELECT value FROM own WHERE name = ?').pluck();
    this.#set = database.prepare('INSERT OR REPLACE INTO own (name, value) VALUES (?, ?)');
  }

  get(name: string): string | undefined {
    return this.#get.get(name) as string | undefined;
  }

  set(name: string, value: string): void {
    this.#set.run(name, value);
  }

  /** The value kept, or the one made now and kept from now on. */
  getOrMake(name: string, make: () => string): string {
    const kept = this.get(name);
    if (kept !== undefined) return kept;
    const value = make();
    this.set(name, value);
    return value;
  }
}
