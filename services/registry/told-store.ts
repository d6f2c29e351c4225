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

/** Written out: a plan reads thousands. */
function fromRaw(raw: Raw): ToldRecord {
  return {
    message: raw.message,
    alarm: raw.alarm,
    bed: raw.bed,
    person: raw.person,
    event: raw.event,
    at: raw.at,
    way: { via: raw.via, to: raw.target },
    step: raw.step,
    form: raw.form,
    pace: raw.pace,
    caution: raw.caution === 1,
    closing: raw.closing === 1,
    delivered: deliveredOf(raw),
  };
}

export class ToldStore {
  readonly #add;
  readonly #since;
  readonly #of;
  readonly #cautions;
  readonly #isTo;
  readonly #wasTold;
  readonly #last;
  readonly #ofMessage;
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
      `SELECT ${COLUMNS} ${from} WHERE site = ? AND at >= ? AND caution = 1 ORDER BY at, message`,
    );
    this.#isTo = database
      .prepare('SELECT 1 FROM told WHERE message = ? AND person = ? AND site = ? LIMIT 1')
      .pluck();
    this.#wasTold = database.prepare('SELECT 1 FROM told WHERE alarm = ? AND person = ? LIMIT 1').pluck();
    this.#last = database.prepare(
      `SELECT message, at FROM told WHERE alarm = ? AND person = ? AND event IN ('raised', 'refined')
       ORDER BY at DESC, message DESC LIMIT 1`,
    );
    this.#ofMessage = database.prepare(
      `SELECT ${COLUMNS} ${from} WHERE told.message = ? ORDER BY told.alarm, told.event`,
    );
    this.#drop = database.prepare('DELETE FROM told WHERE message = ?');
    this.#of = database.prepare(
      `SELECT ${COLUMNS} ${from} WHERE told.alarm = ? AND at < ? ORDER BY at, message`,
    );
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

  /** Those that said how to handle rotten roots, at that time or later. */
  cautions(site: string, from: number): ToldRecord[] {
    return (this.#cautions.all(site, from) as Raw[]).map(fromRaw);
  }

  isTo(person: string, site: string, message: string): boolean {
    return this.#isTo.get(message, person, site) !== undefined;
  }

  /** What messages told, in their order. */
  ofMessages(messages: readonly string[]): ToldRecord[] {
    return messages.flatMap((message) => this.#ofMessage.all(message) as Raw[]).map(fromRaw);
  }

  /** They were never read: another message takes their place. */
  drop(messages: readonly string[]): void {
    for (const message of messages) this.#drop.run(message);
  }

  /** @param before wall clock, ms: only what was told earlier */
  ofAlarm(alarm: string, before = Number.MAX_SAFE_INTEGER): ToldRecord[] {
    return (this.#of.all(alarm, before) as Raw[]).map(fromRaw);
  }

  /** Key of the message that told a person last of an alarm, by any of its ids, that it is there. */
  lastMessage(person: string, alarms: readonly string[]): string | undefined {
    const found = alarms.flatMap(
      (alarm) => (this.#last.get(alarm, person) as { message: string; at: number } | undefined) ?? [],
    );
    return found.sort((one, other) => other.at - one.at)[0]?.message;
  }

  /** Whether a person was told anything of an alarm. */
  wasTold(person: string, alarm: string): boolean {
    return this.#wasTold.get(alarm, person) !== undefined;
  }
}
