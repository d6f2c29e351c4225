/**
 * From when on the readings of a probe are kept one by one. Before that they are kept by hours, except what a watch
 * has flagged and what came late and waits to be put into its hour.
 */
import type { Database } from './database.js';

export interface FullRateMark {
  /** From this event time on every reading is here one by one, ms. */
  readonly since: number;
  /** Until then readings may go into their hours, ms: nobody needs them one by one any more. */
  readonly goal: number;
  /** Those before this event time that may go are in their hours, ms. */
  readonly foldedTo: number;
}

const NOTHING_FOLDED: FullRateMark = { since: 0, goal: 0, foldedTo: 0 };

/** Nothing is remembered in memory: an import in another process must see what a running service has done. */
export class FullRate {
  readonly #get;
  readonly #set;
  readonly #noteLate;

  constructor(database: Database) {
    this.#get = database.prepare('SELECT since, goal, folded_to AS foldedTo FROM full_rate WHERE probe = ?');
    this.#set = database.prepare(
      'INSERT OR REPLACE INTO full_rate (probe, since, goal, folded_to) VALUES (?, ?, ?, ?)',
    );
    this.#noteLate = database.prepare(
      'UPDATE full_rate SET folded_to = min(folded_to, ?) WHERE probe = ? AND since > ?',
    );
  }

  mark(probe: number): FullRateMark {
    return (this.#get.get(probe) as FullRateMark | undefined) ?? NOTHING_FOLDED;
  }

  /** From which event time on every reading of the probe is here one by one, ms; 0 where all are. */
  since(probe: number): number {
    return this.mark(probe).since;
  }

  set(probe: number, { since, goal, foldedTo }: FullRateMark): void {
    this.#set.run(probe, since, goal, foldedTo);
  }

  /** Takes note of a reading of a time whose readings are in their hours: it follows them later. */
  noteLate(probe: number, hour: number): void {
    this.#noteLate.run(hour, probe, hour);
  }
}
