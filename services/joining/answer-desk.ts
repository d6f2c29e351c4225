/** What people send back: understood, acted upon, and answered. */
import { createHash } from 'node:crypto';
import {
  notUnderstoodMessage,
  parseAnswer,
  thanksMessage,
  type UnderstoodAnswer,
} from '../core/alarms/answers/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Person, SiteDescription } from '../core/model/site.js';
import { formatTime, HOUR_ms, MINUTE_ms } from '../core/model/time.js';
import type { AlarmRow } from '../registry/index.js';
import type { Station } from './station.js';
import type { Views } from './views.js';

export interface Received {
  /** Of the message itself, so that one that comes twice is taken once. */
  readonly id: string;
  readonly via: string;
  readonly sender: string;
  readonly text: string;
}

/** One reply to one sender in so long: two machines must not write to each other for ever. */
const REPLY_EVERY_ms = 10 * MINUTE_ms;
const STOPPED = 'asked that messages stop: none goes to this address until it writes again';

interface Sender {
  readonly site: SiteDescription;
  readonly person: Person;
}

export class AnswerDesk {
  readonly #station: Station;
  readonly #views: Views;
  /** Wall clock, ms. */
  readonly #now: () => number;
  readonly #repliedAt = new Map<string, number>();
  readonly #onStop: (who: string) => void;

  constructor(station: Station, views: Views, now: () => number, onStop: (who: string) => void) {
    this.#station = station;
    this.#views = views;
    this.#now = now;
    this.#onStop = onStop;
  }

  /** Takes a message in. Whoever is unknown is kept and not answered. */
  take({ id, via, sender, text }: Received): string {
    const from = this.#senderOf(via, sender);
    const outcome = from ? this.#answer(from, via, sender, text, id) : 'unknown sender, kept and left alone';
    this.#station.inTransaction(() =>
      this.#station.registry.answers.add({
        ...{ id, via, sender, text: text.slice(0, 1000), at: this.#now(), outcome },
        ...{ site: from?.site.site.id ?? null, person: from?.person.id ?? null },
      }),
    );
    return outcome;
  }

  #senderOf(via: string, sender: string): Sender | undefined {
    for (const site of this.#station.registry.sites.descriptions())
      for (const person of site.people)
        if (person.reach.some((way) => way.via === via && way.to === sender)) return { site, person };
    return undefined;
  }

  #answer({ site, person }: Sender, via: string, sender: string, text: string, id: string): string {
    const answer = parseAnswer(text, [person.language]);
    const { language } = person;
    if (answer.kind === 'unclear') {
      this.#reply(via, sender, notUnderstoodMessage(answer.reason, { language }).text, id);
      return `not understood: ${answer.reason}`;
    }
    if (answer.kind === 'stop') {
      this.#reply(via, sender, thanksMessage(answer, [], language).text, id);
      this.#onStop(`${site.site.id}/${person.id}`);
      this.#station.inTransaction(() => this.#station.registry.answers.stop(via, sender, this.#now()));
      return STOPPED;
    }
    this.#station.inTransaction(() => this.#station.registry.answers.resume(via, sender));
    const rows = this.#alarmsFor(site.site.id, person.id, answer.numbers);
    if (rows.length === 0) {
      this.#reply(via, sender, notUnderstoodMessage('strange-number', { language }).text, id);
      return 'no open alarm has that number, or several are open and no number was given';
    }
    this.act(answer, rows, person.name);
    const beds = rows.map((row) => site.beds.find(({ id: bed }) => bed === row.bed)?.name ?? row.bed);
    this.#reply(via, sender, thanksMessage(answer, beds, language).text, id);
    return `${answer.kind}: ${rows.map((row) => row.id).join(', ')}`;
  }

  /** The alarms of those numbers; without a number the only open one that the person was told of. */
  #alarmsFor(site: string, person: string, numbers: readonly number[]): AlarmRow[] {
    const { alarms, told } = this.#station.registry;
    const open = alarms.toTell(site, this.#now()).filter((row) => row.clearedAt === null && !row.withdrawn);
    if (numbers.length > 0) return open.filter(({ number }) => number !== null && numbers.includes(number));
    const own = open.filter(({ id }) => told.ofAlarm(id).some((record) => record.person === person));
    return own.length === 1 ? own : [];
  }

  /** Does what an answer asks for. What was found is written down as an inspection of each bed. */
  act(answer: Exclude<UnderstoodAnswer, { kind: 'stop' }>, rows: readonly AlarmRow[], by: string): void {
    for (const { id } of rows) {
      if (answer.kind === 'quiet') this.#views.shelve(id, { by, hours: answer.hours });
      else this.#views.acknowledge(id, { by, note: answer.kind === 'found' ? 'by what was found' : '' });
    }
    if (answer.kind !== 'found') return;
    const { findings, repacked } = answer;
    for (const bed of new Set(rows.map((row) => row.bed)))
      this.#views.inspect(bed, { at: this.#now(), by, opened: true, repacked, found: [...findings] });
  }

  /** An answer that came by a link, from whom it was sent to. */
  byLink(alarm: string, person: string, answer: Exclude<UnderstoodAnswer, { kind: 'stop' }>): void {
    const row = this.#station.registry.alarms.get(alarm);
    if (!row || row.withdrawn || row.clearedAt !== null)
      throw new SandlarderError(
        'CONFLICT',
        `alarm: expected one that lasts, got one that is over${row?.clearedAt ? ` since ${formatTime(row.clearedAt)}` : ''}`,
      );
    this.act(answer, [row], person);
  }

  #reply(via: string, to: string, text: string, id: string): void {
    const now = this.#now();
    const last = this.#repliedAt.get(`${via} ${to}`);
    if (last !== undefined && now - last < REPLY_EVERY_ms) return;
    this.#repliedAt.set(`${via} ${to}`, now);
    for (const [key, at] of this.#repliedAt) if (now - at > HOUR_ms) this.#repliedAt.delete(key);
    const key = `reply/${createHash('sha256').update(id).digest('hex').slice(0, 24)}`;
    const body = JSON.stringify({ key, event: 'reply', line: text, text, subject: text });
    this.#station.inTransaction(() =>
      this.#station.registry.outbox.add([{ key, via, to, body, alarm: '', event: 'reply' }], now),
    );
  }
}
