/**
 * What was kept out, with its reason: the first bytes of each different thing, and how often it came.
 */
import { createHash } from 'node:crypto';
import type { Database } from './database.js';

/** Bytes of a refused payload that are kept. */
export const SAMPLE_bytes = 4096;

/** Different things kept, at the most: about 400 MB if all were of full length. Beyond it they are only counted. */
export const MOST_QUARANTINED = 100_000;

/** Bytes of a topic that are kept. */
const TOPIC_characters = 256;

export interface Quarantined {
  readonly reason: string;
  readonly topic: string;
  readonly detail: string;
  readonly sample: Buffer;
  readonly count: number;
  readonly firstAt: number;
  readonly lastAt: number;
}

export class QuarantineStore {
  readonly #add;
  readonly #repeat;
  readonly #total;
  readonly #list;
  readonly #rows;
  readonly #totals;
  #room: number;

  constructor(database: Database) {
    this.#repeat = database.prepare(
      'UPDATE quarantine SET count = count + 1, last_at = max(last_at, ?) WHERE reason = ? AND topic = ? AND digest = ?',
    );
    this.#add = database.prepare(
      'INSERT INTO quarantine (reason, topic, digest, detail, sample, count, first_at, last_at) VALUES (?, ?, ?, ?, ?, 1, ?, ?)',
    );
    this.#total = database.prepare(
      'INSERT INTO quarantine_total (reason, count) VALUES (?, 1) ON CONFLICT DO UPDATE SET count = count + 1',
    );
    this.#list = database.prepare(
      'SELECT reason, topic, detail, sample, count, first_at AS firstAt, last_at AS lastAt FROM quarantine ORDER BY last_at DESC, reason, topic LIMIT ?',
    );
    this.#rows = database.prepare('SELECT count(*) FROM quarantine').pluck();
    this.#totals = database.prepare('SELECT reason, count FROM quarantine_total ORDER BY reason');
    this.#room = MOST_QUARANTINED - this.rows();
  }

  add(reason: string, topic: string, detail: string, payload: Uint8Array, at: number): void {
    this.#total.run(reason);
    const sample = Buffer.from(payload.subarray(0, SAMPLE_bytes));
    const shortTopic = topic.slice(0, TOPIC_characters).replace(/\p{Surrogate}/gu, '\ufffd');
    const digest = createHash('sha256').update(sample).digest().subarray(0, 16);
    if (this.#repeat.run(at, reason, shortTopic, digest).changes > 0) return;
    if (!(this.#room > 0)) return;
    this.#room -= 1;
    this.#add.run(reason, shortTopic, digest, detail.slice(0, 1000), sample, at, at);
  }

  /** Newest first. */
  list(most: number): Quarantined[] {
    return this.#list.all(most) as Quarantined[];
  }

  rows(): number {
    return this.#rows.get() as number;
  }

  /** How often each reason came, whether or not a sample was kept. */
  totals(): { reason: string; count: number }[] {
    return this.#totals.all() as { reason: string; count: number }[];
  }
}
