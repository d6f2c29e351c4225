/** What people send back: understood, acted upon, and answered. */
import { createHash } from 'node:crypto';
import {
  nothingOpenMessage,
  notUnderstoodMessage,
  parseAnswer,
  thanksMessage,
  type Waiting,
  whichMessage,
} from '../core/alarms/answers/index.js';
import { SandlarderError } from '../core/errors.js';
import { DAY_ms, HOUR_ms } from '../core/model/time.js';
import type { AlarmRow } from '../registry/index.js';
import { AuditDesk } from './access/audit-desk.js';
import { type AlarmAnswer, alarmsFor, type Sender } from './answered-alarms.js';
import type { Station } from './station.js';
import type { Views } from './views.js';

export interface Received {
  /** Of the message itself, so that one that comes twice is taken once. */
  readonly id: string;
  readonly via: string;
  readonly sender: string;
  readonly text: string;
}

/** Replies to one sender within so long: two machines must not write to each other for ever. Judgement. */
const MOST_REPLIES = [
  { within_ms: HOUR_ms, most: 6 },
  { within_ms: DAY_ms, most: 20 },
] as const;
/** Characters that are kept of what anybody may send. */
const KEPT = { sender: 100, text: 1000 } as const;
const STOPPED = 'asked that messages stop: none goes to this address until an answer comes from it';
const REPEATED = 'came before, and was taken then';

interface Outcome {
  /** Whose answer it is, where that is known better than by the address. */
  readonly from?: Sender;
  readonly outcome: string;
}

export class AnswerDesk {
  readonly #station: Station;
  readonly #views: Views;
  /** Wall clock, ms. */
  readonly #now: () => number;
  readonly #repliedAt = new Map<string, readonly number[]>();
  readonly #onStop: (who: string) => void;
  readonly #audit: AuditDesk;

  constructor(station: Station, views: Views, now: () => number, onStop: (who: string) => void) {
    this.#station = station;
    this.#views = views;
    this.#now = now;
    this.#onStop = onStop;
    this.#audit = new AuditDesk(station.registry.access, now);
  }

  /**
   * Takes a message in, in one transaction with all that it asks for: one that comes again, after a crash or because a
   * gateway repeats itself, does nothing. Whoever is unknown is kept and not answered.
   *
   * @returns what became of it, in a sentence
   */
  take(received: Received): string {
    return this.#station.inTransaction(() => {
      const { id, via, sender, text } = received;
      const { answers } = this.#station.registry;
      if (answers.has(id)) return REPEATED;
      const senders = this.#sendersOf(via, sender);
      const [first, ...others] = senders;
      const { from = first, outcome } = first
        ? this.#answer([first, ...others], received)
        : { outcome: 'unknown sender, kept and left alone' };
      if (from) this.#note(from, received, outcome);
      answers.add({
        ...{ id, via, sender: sender.slice(0, KEPT.sender), text: text.slice(0, KEPT.text), at: this.#now() },
        ...{ outcome, site: from?.site.site.id ?? null, person: from?.person.id ?? null },
      });
      return outcome;
    });
  }

  /** Of whom the description knows: whoever else writes changes nothing. */
  #note({ site, person }: Sender, { via, sender, text }: Received, outcome: string): void {
    const who = `${site.site.id}/${person.id}`;
    const how = via === 'sms' ? 'short message' : via;
    this.#audit.note({ who, how, address: sender, did: 'answer', what: text }, outcome);
  }

  /** Several where people share a telephone, or one person keeps beds of several sites. */
  #sendersOf(via: string, sender: string): Sender[] {
    return this.#station.registry.sites
      .descriptions()
      .flatMap((site) =>
        site.people
          .filter(({ reach }) => reach.some((way) => way.via === via && way.to === sender))
          .map((person) => ({ site, person })),
      );
  }

  #answer(senders: readonly [Sender, ...Sender[]], { via, sender, text, id }: Received): Outcome {
    const [first] = senders;
    const { language } = first.person;
    const answer = parseAnswer(
      text,
      senders.map(({ person }) => person.language),
    );
    const reply = (said: string): void => this.#reply(via, sender, said, id);
    if (answer.kind === 'unclear') {
      reply(notUnderstoodMessage(answer.reason, { language, number: this.#exampleFor(senders) }).text);
      return { outcome: `not understood: ${answer.reason}` };
    }
    if (answer.kind === 'stop') {
      this.#stop(senders, via, sender);
      reply(thanksMessage(answer, [], language).text);
      return { outcome: STOPPED };
    }
    this.#station.registry.answers.resume(via, sender);
    const { from, rows, open } = alarmsFor(this.#station.registry, senders, answer, this.#now());
    if (rows.length === 0) {
      const waiting = waitingOf(open, senders);
      reply(
        (open.length === 0 ? nothingOpenMessage(language) : whichMessage(answer, waiting, language)).text,
      );
      return { outcome: whyNone(answer, open) };
    }
    const refused = this.#tryTo(() => this.act(answer, rows, from.person.name));
    if (refused !== undefined) return { from, outcome: `could not be done: ${refused}` };
    const beds = rows.map((row) => from.site.beds.find(({ id: bed }) => bed === row.bed)?.name ?? row.bed);
    reply(thanksMessage(answer, beds, from.person.language).text);
    return { from, outcome: `${answer.kind}: ${rows.map((row) => row.id).join(', ')}` };
  }

  /** What waits for the address is not sent any more either. */
  #stop(senders: readonly Sender[], via: string, sender: string): void {
    const { answers, outbox } = this.#station.registry;
    answers.stop(via, sender, this.#now());
    outbox.giveUpAll(via, sender, this.#now(), 'its receiver asked that messages stop');
    for (const { site, person } of senders) this.#onStop(`${site.site.id}/${person.id}`);
  }

  /** All or nothing of it. @returns why not, where it was refused: the message is kept all the same */
  #tryTo(work: () => void): string | undefined {
    try {
      this.#station.inTransaction(work);
      return undefined;
    } catch (error) {
      if (error instanceof SandlarderError) return error.message;
      throw error;
    }
  }

  /** Number for an example: none where it can be left out. */
  #exampleFor(senders: readonly [Sender, ...Sender[]]): number | undefined {
    const { open } = alarmsFor(this.#station.registry, senders, { kind: 'seen', numbers: [] }, this.#now());
    return open.length > 1 ? (open[0]?.number ?? undefined) : undefined;
  }

  /** Does what an answer asks for. What was found is written down as an inspection of each bed. */
  act(answer: AlarmAnswer, rows: readonly AlarmRow[], by: string): void {
    for (const { id } of rows) {
      if (answer.kind === 'quiet') this.#views.shelve(id, { by, hours: answer.hours });
      else this.#views.acknowledge(id, { by, note: answer.kind === 'found' ? 'by what was found' : '' });
    }
    if (answer.kind !== 'found') return;
    const { findings, repacked } = answer;
    for (const bed of new Set(rows.map((row) => row.bed)))
      this.#views.inspect(bed, { at: this.#now(), by, opened: true, repacked, found: [...findings] });
  }

  #reply(via: string, to: string, text: string, id: string): void {
    const now = this.#now();
    const before = (this.#repliedAt.get(`${via} ${to}`) ?? []).filter((at) => now - at < DAY_ms);
    const isFull = ({ within_ms, most }: (typeof MOST_REPLIES)[number]): boolean =>
      before.filter((at) => now - at < within_ms).length >= most;
    if (MOST_REPLIES.some(isFull)) return;
    this.#repliedAt.set(`${via} ${to}`, [...before, now]);
    const key = `reply/${createHash('sha256').update(id).digest('hex').slice(0, 24)}`;
    const body = JSON.stringify({ key, event: 'reply', line: text, text, subject: text });
    this.#station.registry.outbox.add([{ key, via, to, body, alarm: '', event: 'reply' }], now);
  }
}

/** Why an answer is for no alarm. */
function whyNone({ numbers }: AlarmAnswer, open: readonly AlarmRow[]): string {
  if (numbers.length > 0) return `no open alarm has the number ${numbers.join(' or ')}`;
  return open.length === 0
    ? 'no open alarm that its sender was told of'
    : 'several are open and no number was given';
}

const waitingOf = (open: readonly AlarmRow[], senders: readonly Sender[]): Waiting[] =>
  open.flatMap(({ bed: id, number }) => {
    const bed = senders.flatMap(({ site }) => site.beds).find((one) => one.id === id)?.name ?? id;
    return number === null ? [] : [{ bed, number }];
  });
