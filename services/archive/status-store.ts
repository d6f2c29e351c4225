import type { Database } from './database.js';

/** What the broker last said of a probe's connection. */
export class StatusStore {
  readonly #set;
  readonly #get;

  constructor(database: Database) {
    this.#set = database.prepare('INSERT OR REPLACE INTO probe_status (probe, online, at) VALUES (?, ?, ?)');
    this.#get = database.prepare('SELECT online FROM probe_status WHERE probe = ?').pluck();
  }

  set(probe: number, online: boolean, at: number): void {
    this.#set.run(probe, online ? 1 : 0, at);
  }

  get(probe: number): boolean | null {
    const online = this.#get.get(probe) as number | undefined;
    return online === undefined ? null : online === 1;
  }
}
