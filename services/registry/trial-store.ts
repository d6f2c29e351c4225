import type { Trial } from '../core/model/trial.js';
import type { Database } from './database.js';

/** Trials, every version of each. */
export class TrialStore {
  readonly #add;
  readonly #get;
  readonly #versions;
  readonly #standing;

  constructor(database: Database) {
    this.#add = database.prepare('INSERT INTO trial (id, trial, document, written_at) VALUES (?, ?, ?, ?)');
    this.#get = database.prepare('SELECT document FROM trial WHERE id = ?').pluck();
    this.#versions = database
      .prepare('SELECT document FROM trial WHERE trial = ? ORDER BY version DESC')
      .pluck();
    this.#standing = database
      .prepare(
        `SELECT document FROM trial JOIN (SELECT max(version) AS last FROM trial GROUP BY trial) ON version = last
         ORDER BY version DESC`,
      )
      .pluck();
  }

  /** @param writtenAt wall clock, ms */
  add(trial: Trial, writtenAt: number): void {
    this.#add.run(trial.id, trial.trial, JSON.stringify(trial), writtenAt);
  }

  /** One version by its id. */
  get(id: string): Trial | undefined {
    const text = this.#get.get(id) as string | undefined;
    return text === undefined ? undefined : (JSON.parse(text) as Trial);
  }

  /** Newest first; empty for a trial that is none. */
  versions(trial: string): Trial[] {
    return (this.#versions.all(trial) as string[]).map((text) => JSON.parse(text) as Trial);
  }

  /** The version that stands of each trial, the newest first. */
  standing(): Trial[] {
    return (this.#standing.all() as string[]).map((text) => JSON.parse(text) as Trial);
  }
}
