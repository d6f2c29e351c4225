/**
 * Messages on their way, written in the transaction that has their cause.
 */
import type { Database } from './database.js';

export interface NewMessage {
  readonly key: string;
  readonly via: string;
  readonly to: string;
  readonly body: string;
  readonly alarm: string;
  readonly event: string;
}

export interface WaitingMessage {
  readonly key: string;
  readonly via: string;
  readonly to: string;
  readonly body: string;
  readonly attempts: number;
  readonly createdAt: number;
}

export interface LateMessage {
  readonly key: string;
  readonly attempts: number;
  readonly createdAt: number;
}

/** Times are of the wall clock, ms; null for what has not happened, or is not known to have. */
export interface MessageStatus {
  readonly deliveredAt: number | null;
  readonly givenUpAt: number | null;
  readonly receivedAt: number | null;
  readonly error: string | null;
}

const WAITING = 'delivered_at IS NULL AND given_up_at IS NULL';

export class OutboxStore {
  readonly #add;
  readonly #due;
  readonly #next;
  readonly #deliver;
  readonly #fail;
  readonly #giveUp;
  readonly #told;
  readonly #waiting;
  readonly #stuck;
  readonly #refusing;
  readonly #late;
  readonly #status;
  readonly #follow;
  readonly #giveUpAll;
  readonly #receive;
  readonly #lose;
  readonly #move;

  constructor(database: Database) {
    this.#add = database.prepare(
      `INSERT INTO outbox (key, via, target, body, alarm, event, created_at, next_attempt_at)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
    );
    this.#due = database.prepare(
      `SELECT key, via, target AS "to", body, attempts, created_at AS createdAt FROM outbox
       WHERE ${WAITING} AND next_attempt_at <= ? ORDER BY next_attempt_at, rowid LIMIT ?`,
    );
    this.#next = database
      .prepare(`SELECT min(next_attempt_at) FROM outbox WHERE ${WAITING} AND next_attempt_at > ?`)
      .pluck();
    this.#deliver = database.prepare(
      'UPDATE outbox SET delivered_at = ?, attempts = attempts + 1, error = NULL WHERE key = ?',
    );
    this.#fail = database.prepare(
      'UPDATE outbox SET attempts = attempts + 1, next_attempt_at = ?, error = ? WHERE key = ?',
    );
    this.#giveUp = database.prepare(
      'UPDATE outbox SET given_up_at = ?, attempts = attempts + 1, error = ? WHERE key = ?',
    );
    this.#told = database
      .prepare('SELECT count(*) FROM outbox WHERE alarm = ? AND event = ? AND via = ?')
      .pluck();
    this.#stuck = database.prepare(
      `SELECT via, target AS "to" FROM outbox WHERE (${WAITING} AND attempts >= ? AND created_at <= ?)
       GROUP BY via, target`,
    );
    this.#refusing = database.prepare(
      `SELECT via, target AS "to" FROM outbox GROUP BY via, target
         HAVING max(given_up_at) >= ? AND max(given_up_at) > coalesce(max(delivered_at), 0)`,
    );
    this.#late = database.prepare(
      `SELECT key, attempts, created_at AS createdAt FROM outbox
         WHERE ${WAITING} AND attempts >= 1 AND created_at <= ? AND via = ? AND target = ?
         ORDER BY created_at, key`,
    );
    this.#follow = database.prepare('UPDATE outbox SET created_at = ?, attempts = ? WHERE key = ?');
    this.#giveUpAll = database.prepare(
      `UPDATE outbox SET given_up_at = ?, error = ? WHERE ${WAITING} AND via = ? AND target = ?`,
    );
    this.#status = database.prepare(
      `SELECT delivered_at AS deliveredAt, given_up_at AS givenUpAt, received_at AS receivedAt, error
       FROM outbox WHERE key = ?`,
    );
    this.#receive = database.prepare(
      'UPDATE outbox SET received_at = ? WHERE key = ? AND received_at IS NULL',
    );
    this.#lose = database.prepare(
      'UPDATE outbox SET delivered_at = NULL, given_up_at = ?, error = ? WHERE key = ? AND received_at IS NULL',
    );
    this.#move = database.prepare(
      `UPDATE outbox SET next_attempt_at = next_attempt_at + ?, created_at = created_at + ? WHERE ${WAITING}`,
    );
    this.#waiting = database.prepare(`SELECT count(*) FROM outbox WHERE ${WAITING}`).pluck();
  }

  /** Adds messages, once for each key. */
  add(messages: readonly NewMessage[], at: number): void {
    for (const { key, via, to, body, alarm, event } of messages)
      this.#add.run(key, via, to, body, alarm, event, at, at);
  }

  /** How often an event of an alarm was put on its way to the console, which is told of everything. */
  timesTold(alarm: string, event: string): number {
    return this.#told.get(alarm, event, 'console') as number;
  }

  /** Addresses that so many attempts have not reached, of messages from before a time. */
  stuck(attempts: number, before: number): { via: string; to: string }[] {
    return this.#stuck.all(attempts, before) as { via: string; to: string }[];
  }

  /** Addresses whose messages were given up at a time or later, with none that arrived since. */
  refusing(from: number): { via: string; to: string }[] {
    return this.#refusing.all(from) as { via: string; to: string }[];
  }

  /** Messages from before a time that were tried and still wait for one address, oldest first. */
  late(before: number, via: string, to: string): LateMessage[] {
    return this.#late.all(before, via, to) as LateMessage[];
  }

  /** A message in the place of others: as old, and as often tried, so that a dead address stays known as one. */
  follow(key: string, { createdAt, attempts }: Omit<LateMessage, 'key'>): void {
    this.#follow.run(createdAt, attempts, key);
  }

  /** Whatever waits for an address is not sent any more. */
  giveUpAll(via: string, to: string, at: number, error: string): void {
    this.#giveUpAll.run(at, error, via, to);
  }

  /** What became of a message so far. */
  statusOf(key: string): MessageStatus | undefined {
    return this.#status.get(key) as MessageStatus | undefined;
  }

  /** Its receiver has a message that was handed over. The first word of it stands. */
  received(key: string, at: number): void {
    this.#receive.run(at, key);
  }

  /** A message that was handed over did not reach its receiver, and nothing more is tried. */
  lost(key: string, at: number, error: string): void {
    this.#lose.run(at, error, key);
  }

  /** The wall clock was set: what waits is as old, and waits as long, as before. @param by forward where positive, ms */
  clockSet(by: number): void {
    this.#move.run(by, by);
  }

  waiting(): number {
    return this.#waiting.get() as number;
  }

  due(now: number, most: number): WaitingMessage[] {
    return this.#due.all(now, most) as WaitingMessage[];
  }

  nextAttemptAt(now: number): number | undefined {
    return (this.#next.get(now) as number | null) ?? undefined;
  }

  delivered(key: string, at: number): void {
    this.#deliver.run(at, key);
  }

  failed(key: string, _at: number, nextAttemptAt: number, error: string): void {
    this.#fail.run(nextAttemptAt, error.slice(0, 1000), key);
  }

  givenUp(key: string, at: number, error: string): void {
    this.#giveUp.run(at, error.slice(0, 1000), key);
  }
}
