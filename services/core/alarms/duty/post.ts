/** Makes messages to one person of what waits to be told to them: alone, bundled, or in a summary. */
import { MINUTE_ms } from '../../model/time.js';
import { ALARM_EVENTS } from '../text.js';
import { byUrgency } from '../urgency.js';
import type { Pending, Telling } from './due.js';
import type { LocalClock } from './local-clock.js';
import { PersonDay } from './person-day.js';
import { type Rest, restOf } from './rest.js';
import type { Form, PersonTelling, PersonToTell, ReachWay, ToldRecord } from './types.js';

/** A new unpack first: it is never held back by what came before it. */
const inOrder = (one: Pending, other: Pending): number =>
  Number(other.fresh) - Number(one.fresh) ||
  byUrgency(one.alarm, other.alarm) ||
  ALARM_EVENTS.indexOf(one.event) - ALARM_EVENTS.indexOf(other.event);

export class Post {
  readonly tell: PersonTelling[] = [];
  readonly record: ToldRecord[] = [];
  /** When more may be told, ms. */
  readonly wakeAt: number[] = [];
  readonly #person: PersonToTell;
  readonly #telling: Telling;
  readonly #clock: LocalClock;
  readonly #rest: Rest;
  readonly #heard: readonly ToldRecord[];
  readonly #day: PersonDay;
  readonly #now: number;
  /** What goes into the last message of the day about a bed. */
  readonly #last = new Map<string, Pending[]>();

  constructor(person: PersonToTell, telling: Telling, clock: LocalClock) {
    const { now, settings } = telling.input;
    this.#person = person;
    this.#telling = telling;
    this.#clock = clock;
    this.#now = now;
    this.#rest = restOf(clock, person.quiet, settings.morning);
    this.#heard = telling.records.of(person.id);
    this.#day = new PersonDay(this.#heard, telling.household.beds, {
      ...{ clock, now, most: settings.most_per_bed_a_day },
    });
  }

  /** Writes what is due of it; for the rest notes when. */
  write(pending: readonly Pending[]): void {
    const items = [...pending].sort(inOrder);
    const paced = (pace: Pending['pace']): Pending[] => items.filter((item) => item.pace === pace);
    this.#writeAtOnce(paced('at-once'));
    this.#writeByDay(paced('by-day'));
    this.#writeInTheMorning(paced('morning'));
    for (const last of this.#last.values()) this.#writeLast(last);
  }

  #writeAtOnce(items: readonly Pending[]): void {
    const { alarms, within_min } = this.#telling.input.settings.storm;
    const since = this.#now - within_min * MINUTE_ms;
    const recent = this.#heard.filter(
      ({ at, pace, closing }) => at > since && pace === 'at-once' && !closing,
    );
    const summary = recent.findLast(({ form }) => form === 'summary');
    if (items.length > 0 && summary) {
      this.wakeAt.push(summary.at + within_min * MINUTE_ms);
      return;
    }
    const open = items.filter((item) => this.#day.gateFor(item) === 'open');
    const told = recent.filter(({ event }) => event === 'raised');
    const lately = new Set([...told.map(({ alarm }) => alarm), ...open.map(({ alarm }) => alarm.id)]);
    const storm = open.length > 0 && lately.size >= alarms;
    if (storm) this.#writeTogether('summary', open);
    const rest = storm ? items.filter((item) => !open.includes(item)) : items;
    for (const item of rest) if (this.#admit(item)) this.#emit('single', [item], item.ways[0]);
  }

  #writeByDay(items: readonly Pending[]): void {
    const quietUntil = this.#rest.quietUntil(this.#now);
    if (quietUntil === undefined) this.#writeTogether('bundle', this.#admitted(items));
    else if (items.length > 0) this.wakeAt.push(quietUntil);
  }

  /** One message a morning; where the morning was missed, later on the day. */
  #writeInTheMorning(items: readonly Pending[]): void {
    if (items.length === 0) return;
    const now = this.#now;
    const morning = this.#rest.morningBefore(now);
    const had = this.#heard.some(({ pace, at }) => pace === 'morning' && at >= morning);
    const closed = had || this.#rest.quietUntil(now) !== undefined;
    const ready = items.filter(({ since }) => {
      const from = this.#rest.morningFrom(since);
      if (!closed && from <= now) return true;
      this.wakeAt.push(from > now ? from : this.#rest.morningFrom(now + 1));
      return false;
    });
    this.#writeTogether('bundle', this.#admitted(ready));
  }

  #admitted(items: readonly Pending[]): Pending[] {
    return items.filter((item) => this.#admit(item));
  }

  /** What has no place of its own today goes into the summary, or waits for tomorrow. */
  #admit(item: Pending): boolean {
    const gate = this.#day.gateFor(item);
    if (gate === 'open') return true;
    if (gate === 'last') this.#last.set(item.alarm.bed, [...(this.#last.get(item.alarm.bed) ?? []), item]);
    else this.#waitForTomorrow();
    return false;
  }

  #waitForTomorrow(): void {
    this.wakeAt.push(this.#clock.lastAt(this.#clock.dayOf(this.#now) + 1, 0));
  }

  #writeLast(items: readonly Pending[]): void {
    const way = this.#commonWay(items) ?? items[0]?.ways[0];
    const fitting = items.filter(({ ways }) => ways.some((other) => other === way));
    if (fitting.length < items.length) this.#waitForTomorrow();
    this.#emit('summary', fitting, way, true);
  }

  /** One message by a way that serves all; where there is none, one for each way. */
  #writeTogether(form: 'bundle' | 'summary', items: readonly Pending[]): void {
    const common = this.#commonWay(items);
    const wayOf = (item: Pending): ReachWay | undefined => common ?? item.ways[0];
    for (const way of new Set(items.map(wayOf))) {
      const together = items.filter((item) => wayOf(item) === way);
      this.#emit(form === 'bundle' && together.length === 1 ? 'single' : form, together, way);
    }
  }

  #commonWay(items: readonly Pending[]): ReachWay | undefined {
    return this.#person.reach.find((way) => items.every(({ ways }) => ways.includes(way)));
  }

  #emit(form: Form, items: readonly Pending[], way: ReachWay | undefined, closing = false): void {
    const first = items[0];
    if (!first || !way) return;
    // A CAP message is about one alarm.
    if (way.body === 'cap' && items.length > 1) {
      for (const item of items) this.#emit('single', [item], way, closing);
      return;
    }
    const person = this.#person.id;
    const reach = this.#person.reach.indexOf(way);
    const key = `${person}/${this.#now}/${reach}/${first.alarm.id}/${first.event}`;
    const cautions = items.map((item) => this.#day.takeCaution(item));
    const names = (of: (item: Pending) => readonly string[]): string[] =>
      [...new Set(items.flatMap(of))].filter((id) => id !== person).sort();
    this.tell.push({
      ...{ key, person, ...way, form, event: first.event, closing },
      alarms: items.map(({ alarm }) => alarm.id),
      events: items.map(({ event }) => event),
      step: Math.max(...items.map(({ step }) => step)),
      caution: cautions.includes(true),
      unanswered: names((item) => item.unanswered),
      unreached: names((item) => item.unreached),
    });
    items.forEach(({ alarm, event, step, pace }, index) => {
      this.#day.count(alarm.bed, key);
      if (closing) this.#day.close(alarm.bed);
      this.record.push({
        ...{ message: key, alarm: alarm.id, bed: alarm.bed, person, event, at: this.#now, step, form, pace },
        ...{ way: { via: way.via, to: way.to }, caution: cautions[index] === true, closing, delivered: null },
      });
    });
  }
}
