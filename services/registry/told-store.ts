/** What was told to whom. The outbox says what became of each message. */
import type { ToldRecord } from '../core/alarms/duty/index.js';
import type { Database } from './database.js';

interface Raw extends Omit<ToldRecord, 'way' | 'caution' | 'closing' | 'delivered'> {
  readonly via: string;
  readonly target: string;
  readonly caution: number;
  readonly closing: number;
  readonly delivered_at: number | null;
  readonly given_up_at: number | null;
}

const COLUMNS = `told.message, told.alarm, bed, person, told.event, at, told.via, told.target, step, form, pace, caution,
  closing, delivered_at, given_up_at`;

function deliveredOf({ delivered_at, given_up_at }: Raw): boolean | null {
  if (delivered_at !== null) return true;
  return given_up_at === null ? null : false;
}

function fromRaw(raw: Raw): ToldRecord {
  const { message, alarm, bed, person, event, at, via, target, step, form, pace } = raw;
  return {
    ...{ message, alarm, bed, person, event, at, way: { via, to: target }, step, form, pace },
    ...{ caution: raw.caution === 1, closing: raw.closing === 1, delivered: deliveredOf(raw) },
  };
}

export class ToldStore {
  readonly #add;
  readonly #since;
  readonly #of;
  readonly #cautions;
  readonly #isTo;
  readonly #alarmsOf;
  readonly #merge;
  readonly #drop;

  constructor(database: Database) {
    this.#add = database.prepare(
      `INSERT INTO told (message, site, alarm, bed, person, event, at, via, target, step, form, pace, caution, closing)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    const from = 'FROM told LEFT JOIN outbox ON outbox.key = told.message';
    this.#since = database.prepare(
      `SELECT ${COLUMNS} ${from} WHERE site = ? AND at >= ? ORDER BY at, message`,
    );
    this.#cautions = database.prepare(
      `SELECT ${COLUMNS} ${from} WHERE site = ? AND caution = 1 ORDER BY at, message`,
    );
    this.#isTo = database
      .prepare('SELECT 1 FROM told WHERE message = ? AND person = ? AND site = ? LIMIT 1')
      .pluck();
    this.#alarmsOf = database
      .prepare('SELECT DISTINCT alarm FROM told WHERE message = ? ORDER BY alarm')
      .pluck();
    this.#merge = database.prepare('UPDATE OR IGNORE told SET message = ? WHERE message = ?');
    this.#drop = database.prepare('DELETE FROM told WHERE message = ?');
    this.#of = database.prepare(`SELECT ${COLUMNS} ${from} WHERE told.alarm = ? ORDER BY at, message`);
  }

  add(site: string, records: readonly ToldRecord[]): void {
    for (const { message, alarm, bed, person, event, at, way, step, form, pace, caution, closing } of records)
      this.#add.run(
        ...[message, site, alarm, bed, person, event, at, way.via, way.to, step, form, pace],
        ...[Number(caution), Number(closing)],
      );
  }

  /** Told at that time or later, wall clock, ms. */
  since(site: string, from: number): ToldRecord[] {
    return (this.#since.all(site, from) as Raw[]).map(fromRaw);
  }

  /** Those that said how to handle rotten roots. */
  cautions(site: string): ToldRecord[] {
    return (this.#cautions.all(site) as Raw[]).map(fromRaw);
  }

  isTo(person: string, site: string, message: string): boolean {
    return this.#isTo.get(message, person, site) !== undefined;
  }

  /** Each once, in order of the messages. */
  alarmsOf(messages: readonly string[]): string[] {
    return [...new Set(messages.flatMap((message) => this.#alarmsOf.all(message) as string[]))];
  }

  /** What was told by several messages is told by one. */
  merge(messages: readonly string[], into: string): void {
    for (const message of messages) {
      this.#merge.run(into, message);
      this.#drop.run(message);
    }
  }

  ofAlarm(alarm: string): ToldRecord[] {
    return (this.#of.all(alarm) as Raw[]).map(fromRaw);
  }
}
