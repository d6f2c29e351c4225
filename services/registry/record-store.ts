/**
 * Which records a centre is still to be sent: noted by triggers in the transaction that writes them, whoever writes. What a
 * record says is read when it is sent, so that of what changed often the newest is sent once.
 */
import type { Database } from './database.js';

export interface DueRecord {
  readonly seq: number;
  readonly kind: 'site' | 'inspection' | 'alarm';
  /** Of the site, the inspection or the alarm. */
  readonly id: string;
}

/** In the order in which a centre can make use of them. */
const NOTE_ALL = [
  "INSERT INTO record_due (kind, id) SELECT DISTINCT 'site', site FROM entity WHERE kind = 'site' ORDER BY site",
  "INSERT INTO record_due (kind, id) SELECT 'inspection', id FROM inspection ORDER BY at, id",
  "INSERT INTO record_due (kind, id) SELECT 'alarm', id FROM alarm ORDER BY raised_at, id",
];

export class RecordStore {
  readonly #database: Database;
  readonly #active;
  readonly #set;
  readonly #due;
  readonly #forget;
  readonly #count;

  constructor(database: Database) {
    this.#database = database;
    this.#active = database.prepare('SELECT active FROM record_sending').pluck();
    this.#set = database.prepare(
      'INSERT INTO record_sending (id, active) VALUES (1, ?) ON CONFLICT DO UPDATE SET active = excluded.active',
    );
    this.#due = database.prepare('SELECT seq, kind, id FROM record_due ORDER BY seq LIMIT ?');
    this.#forget = database.prepare('DELETE FROM record_due WHERE seq = ?');
    this.#count = database.prepare('SELECT count(*) FROM record_due').pluck();
  }

  /** From now on what is written is noted, and at the first time all that is there; or nothing more is, and what waits is dropped. */
  setActive(active: boolean): void {
    if ((this.#active.get() === 1) === active) return;
    this.#database
      .transaction(() => {
        this.#set.run(active ? 1 : 0);
        this.#database.exec('DELETE FROM record_due');
        if (active) for (const note of NOTE_ALL) this.#database.exec(note);
      })
      .immediate();
  }

  /** The oldest that wait. */
  due(most: number): DueRecord[] {
    return this.#due.all(most) as DueRecord[];
  }

  /** It was sent as it stood; what changed meanwhile was noted anew. */
  forget({ seq }: DueRecord): void {
    this.#forget.run(seq);
  }

  count(): number {
    return this.#count.get() as number;
  }
}
