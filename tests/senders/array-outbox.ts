/** An outbox in memory: the plainest thing that keeps the port's promises. */
import { setImmediate } from 'node:timers/promises';
import type { Outbox, OutboxMessage } from '../../services/senders/ports.js';

interface Row {
  message: OutboxMessage;
  nextAttemptAt: number;
  state: 'waiting' | 'delivered' | 'given up';
  error: string;
}

export const aMessage = (otherwise: Partial<OutboxMessage> = {}): OutboxMessage =>
  Object.freeze({
    key: 'k1',
    via: 'webhook',
    to: 'http://receiver.example/',
    body: '{}',
    attempts: 0,
    createdAt: 0,
    ...otherwise,
  });

export class ArrayOutbox implements Outbox {
  readonly rows: Row[] = [];
  /** Set to make every call fail with it. */
  broken: Error | undefined;

  add(...messages: OutboxMessage[]): void {
    for (const message of messages)
      this.rows.push({ message, nextAttemptAt: message.createdAt, state: 'waiting', error: '' });
  }

  due(now: number, most: number): OutboxMessage[] {
    this.#check();
    return this.#waiting()
      .filter(({ nextAttemptAt }) => nextAttemptAt <= now)
      .map(({ message }) => message)
      .slice(0, most);
  }

  nextAttemptAt(now: number): number | undefined {
    const times = this.#waiting().map((row) => row.nextAttemptAt);
    const later = times.filter((time) => time > now);
    return later.length > 0 ? Math.min(...later) : undefined;
  }

  delivered(key: string): void {
    this.#update(key, (row) => Object.assign(row, { state: 'delivered', error: '' }));
  }

  failed(key: string, _at: number, nextAttemptAt: number, error: string): void {
    this.#update(key, (row) => Object.assign(row, { nextAttemptAt, error }));
  }

  givenUp(key: string, _at: number, error: string): void {
    this.#update(key, (row) => Object.assign(row, { state: 'given up', error }));
  }

  row(key: string): Row {
    const row = this.rows.find(({ message }) => message.key === key);
    if (!row) throw new Error(`no message ${key}`);
    return row;
  }

  /** What became of each message, by key. */
  get states(): Record<string, string> {
    return Object.fromEntries(this.rows.map(({ message, state }) => [message.key, state]));
  }

  /** Resolves when the message was tried so often. */
  async tried(key: string, attempts: number): Promise<Row> {
    while (this.row(key).message.attempts < attempts) await setImmediate();
    return this.row(key);
  }

  #waiting(): Row[] {
    return this.rows.filter(({ state }) => state === 'waiting');
  }

  #check(): void {
    if (this.broken) throw this.broken;
  }

  #update(key: string, change: (row: Row) => void): void {
    this.#check();
    const row = this.row(key);
    if (row.state !== 'waiting') throw new Error(`${key} is ${row.state} already`);
    row.message = { ...row.message, attempts: row.message.attempts + 1 };
    change(row);
  }
}
