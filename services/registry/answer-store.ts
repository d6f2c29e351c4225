/** What came back from people, and from whoever else wrote. */
import type { Database } from './database.js';

export interface Answer {
  readonly id: string;
  readonly via: string;
  readonly sender: string;
  readonly text: string;
  /** Wall clock, ms. */
  readonly at: number;
  /** null for a sender whom nobody knows. */
  readonly site: string | null;
  readonly person: string | null;
  /** What became of it, in a sentence. */
  readonly outcome: string;
}

/** Rows of unknown senders that are kept: whoever finds the number must not fill the board. */
const MOST_UNKNOWN = 1000;

export class AnswerStore {
  readonly #add;
  readonly #has;
  readonly #list;
  readonly #trim;
  readonly #use;
  readonly #isUsed;
  readonly #stop;
  readonly #resume;
  readonly #stopped;

  constructor(database: Database) {
    this.#add = database.prepare(
      `INSERT INTO answer (id, via, sender, text, at, site, person, outcome) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
       ON CONFLICT DO NOTHING`,
    );
    this.#has = database.prepare('SELECT 1 FROM answer WHERE id = ?').pluck();
    this.#list = database.prepare('SELECT * FROM answer ORDER BY at DESC, id LIMIT ?');
    this.#trim = database.prepare(
      `DELETE FROM answer WHERE person IS NULL AND id NOT IN
       (SELECT id FROM answer WHERE person IS NULL ORDER BY at DESC LIMIT ${MOST_UNKNOWN})`,
    );
    this.#stop = database.prepare(
      'INSERT INTO stopped (via, target, at) VALUES (?, ?, ?) ON CONFLICT DO NOTHING',
    );
    this.#resume = database.prepare('DELETE FROM stopped WHERE via = ? AND target = ?');
    this.#stopped = database.prepare('SELECT via, target AS "to" FROM stopped ORDER BY via, target');
    this.#isUsed = database.prepare('SELECT 1 FROM link_used WHERE id = ?').pluck();
    this.#use = database.prepare('INSERT INTO link_used (id, at) VALUES (?, ?) ON CONFLICT DO NOTHING');
  }

  /** @returns whether it is new: a message that comes twice is kept once */
  add({ id, via, sender, text, at, site, person, outcome }: Answer): boolean {
    const { changes } = this.#add.run(id, via, sender, text, at, site, person, outcome);
    if (person === null) this.#trim.run();
    return changes === 1;
  }

  /** Whether a message was taken in before. */
  has(id: string): boolean {
    return this.#has.get(id) !== undefined;
  }

  /** Newest first. */
  list(limit: number): Answer[] {
    return this.#list.all(limit) as Answer[];
  }

  /** Nothing more goes to an address, until it writes again. */
  stop(via: string, to: string, at: number): void {
    this.#stop.run(via, to, at);
  }

  resume(via: string, to: string): void {
    this.#resume.run(via, to);
  }

  stopped(): { via: string; to: string }[] {
    return this.#stopped.all() as { via: string; to: string }[];
  }

  isUsed(id: string): boolean {
    return this.#isUsed.get(id) !== undefined;
  }

  /** @returns whether it had not been used before */
  useLink(id: string, at: number): boolean {
    return this.#use.run(id, at).changes === 1;
  }
}
