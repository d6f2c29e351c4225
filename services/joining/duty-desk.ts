/**
 * Tells people of alarms: plans who is told now from what is at rest, writes their messages and what was told in one
 * transaction, and says when to plan again. A crash between leaves either all of it or none, and the next plan finds
 * what is still to be told.
 */
import { withDegrees } from '../core/alarms/degrees.js';
import {
  type AlarmToTell,
  type PersonTelling,
  planTelling,
  type ReachWay,
  type ToldRecord,
} from '../core/alarms/duty/index.js';
import { byUrgency } from '../core/alarms/urgency.js';
import type { Person, SiteDescription } from '../core/model/site.js';
import { tellingInForce } from '../core/model/telling-defaults.js';
import { DAY_ms, MINUTE_ms } from '../core/model/time.js';
import type { AlarmRow, LateMessage, Registry } from '../registry/index.js';
import { asAlarm } from './alarm-keeper.js';
import { stuckAddresses } from './dead-addresses.js';
import { capFor } from './duty-cap.js';
import { type PersonBody, type ToldAlarm, writtenFor } from './duty-messages.js';

export interface DutyOptions {
  /** Wall clock, ms. */
  readonly now: () => number;
  /** Whether messages can go out this way at all. */
  readonly hasWay: (via: string) => boolean;
  /** Whether answers come back this way. */
  readonly answers: (via: string) => boolean;
  /** A link by which a person can answer; undefined where the service has no address for people. */
  readonly linkFor: (alarm: string, person: string, message?: string) => string | undefined;
  /** Alarms of a site that nobody can be told of, once each time that list changes. */
  readonly onUnreachable: (site: string, alarms: readonly string[]) => void;
  /** What a time of the wall clock as it stood is by that of now, ms: the same where it was never set. */
  readonly counted?: (time: number) => number;
}

/** Alarms that ended so long ago are no longer told of. */
const ENDED_ms = 2 * DAY_ms;
/** For so long after its end an alarm keeps its number: an answer that comes late must not meet another. */
const KEPT_ms = 7 * DAY_ms;
/** Messages that wait so long for one address, and so many of them, become one. Judgement. */
const STALE = { ms: 60 * MINUTE_ms, count: 2 } as const;

export class DutyDesk {
  readonly #registry: Registry;
  readonly #options: DutyOptions;
  readonly #unreachable = new Map<string, string>();
  readonly #counted: (time: number) => number;

  constructor(registry: Registry, options: DutyOptions) {
    this.#registry = registry;
    this.#options = options;
    this.#counted = options.counted ?? ((time) => time);
  }

  /**
   * Plans for every site, within the caller's transaction.
   *
   * @returns wall clock at which to plan again if nothing changes, ms; null where nothing is to come
   */
  plan(): number | null {
    const sites = this.#registry.sites.descriptions();
    const silent = sites.filter(({ people }) => !people.some(hasReach));
    for (const { site } of silent) this.#noteUnreachable(site.id, []);
    const times = sites
      .filter((site) => !silent.includes(site))
      .flatMap((site) => this.#planSite(site) ?? []);
    return times.length === 0 ? null : Math.min(...times);
  }

  #planSite(site: SiteDescription): number | null {
    const now = this.#options.now();
    const rows = this.#registry.alarms.toTell(site.site.id, now - ENDED_ms);
    const people = site.people.filter(hasReach);
    this.#mergeStale(site, people, now);
    const { escalation, timezone: timeZone, telling } = site.site;
    const plan = planTelling({
      ...{ now, timeZone, people: people.map(withoutConsole), groups: site.groups, beds: site.beds },
      ...{ settings: tellingInForce(telling), escalation },
      alarms: rows.map((row) => toTell(row, this.#counted)),
      told: this.#told(site, rows, now),
      deadWays: this.#deadWays(people, now),
    });
    const byId = new Map(rows.map((row) => [row.id, row]));
    for (const one of plan.tell) this.#write(site, one, byId, now);
    this.#registry.told.add(site.site.id, plan.record);
    this.#noteUnreachable(site.site.id, plan.unreachable);
    return plan.nextAt;
  }

  #told({ site, beds }: SiteDescription, rows: readonly AlarmRow[], now: number): ToldRecord[] {
    const lately = now - ENDED_ms;
    // Cautions are said once a season; where a bed has no season, once.
    const seasonFrom = beds.reduce((earliest, { filled = 0 }) => Math.min(earliest, filled), now);
    const all = [
      ...this.#registry.told.cautions(site.id, seasonFrom),
      ...this.#registry.told.since(site.id, lately),
      ...rows.flatMap(({ id, formerly }) =>
        [id, ...formerly].flatMap((alarm) => this.#registry.told.ofAlarm(alarm, lately)),
      ),
    ];
    const each = new Map(all.map((one) => [`${one.message} ${one.alarm} ${one.event}`, one])).values();
    return [...each].map((one) => ({ ...one, at: this.#counted(one.at) }));
  }

  #deadWays(people: readonly Person[], now: number): ReachWay[] {
    const unusable = people.flatMap(({ reach }) => reach.filter(({ via }) => !this.#options.hasWay(via)));
    return [...unusable, ...this.#registry.answers.stopped(), ...stuckAddresses(this.#registry, now)];
  }

  #write(site: SiteDescription, plan: PersonTelling, rows: ReadonlyMap<string, AlarmRow>, now: number): void {
    const person = site.people.find(({ id }) => id === plan.person);
    if (!person) return;
    const alarms = plan.alarms.flatMap((id) => this.#toldAlarm(site, rows.get(id), now));
    const [first] = plan.alarms;
    const shared = { via: plan.via, to: plan.to, alarm: first ?? '', event: plan.event };
    if (plan.body === 'cap') {
      this.#registry.outbox.add(
        alarms.map((told) => ({ ...shared, key: plan.key, body: this.#capOf(site, plan, told, now) })),
        now,
      );
      return;
    }
    const { body, more } = writtenFor({
      ...{ plan, person, alarms, now, mayAnswer: this.#options.answers(plan.via) },
      timeZone: site.site.timezone,
      people: new Map(site.people.map((one) => [one.id, one])),
      answerUrl: this.#linkFor(plan),
    });
    const apart = more !== undefined && plan.via === 'sms';
    const names = alarms.map(({ bed }) => bed.name);
    const whole = more === undefined || apart ? body : withMore(body, more, names);
    const messages = [{ ...shared, key: plan.key, body: JSON.stringify(whole) }];
    if (apart) {
      const key = `${plan.key}/more`;
      const rest = { ...body, key, text: more, line: more, longText: more };
      messages.push({ ...shared, key, body: JSON.stringify(rest) });
    }
    this.#registry.outbox.add(messages, now);
  }

  #capOf({ site }: SiteDescription, plan: PersonTelling, told: ToldAlarm, now: number): string {
    const formerly = this.#registry.alarms.get(told.alarm.id)?.formerly ?? [];
    const records = [told.alarm.id, ...formerly].flatMap((id) => this.#registry.told.ofAlarm(id));
    return capFor({ site, plan, told, records, now });
  }

  /** To what the message tells of and lasts. */
  #linkFor({ key, person, alarms, events }: PersonTelling): string | undefined {
    const lasting = alarms.filter((_, at) => events[at] === 'raised' || events[at] === 'refined');
    const [first] = lasting;
    if (first === undefined) return undefined;
    return this.#options.linkFor(first, person, lasting.length > 1 ? key : undefined);
  }

  #toldAlarm(site: SiteDescription, row: AlarmRow | undefined, now: number): ToldAlarm[] {
    const described = site.beds.find(({ id }) => id === row?.bed);
    if (!row || !described) return [];
    const number = this.#registry.alarms.numberOf(row.id, now - KEPT_ms);
    const bed = { ...described, timeZone: site.site.timezone };
    return [{ alarm: asAlarm(row, now), number, bed, knownAt: row.knownAt ?? now }];
  }

  /** After a night without network: what still waits for one address becomes one message of what still holds. */
  #mergeStale(site: SiteDescription, people: readonly Person[], now: number): void {
    const { outbox, told } = this.#registry;
    for (const person of people)
      for (const way of person.reach) {
        // Each CAP message is about one alarm, and a later one refers to it.
        if (way.body === 'cap') continue;
        const late = outbox
          .late(now - STALE.ms, way.via, way.to)
          .filter(({ key }) => told.isTo(person.id, site.site.id, key.replace(/\/more$/, '')));
        const messages = late.filter(({ key }) => !key.endsWith('/more'));
        if (messages.length >= STALE.count) this.#merge(site, person, way, late, now);
      }
  }

  #merge(
    site: SiteDescription,
    person: Person,
    { via, to }: ReachWay,
    late: readonly LateMessage[],
    now: number,
  ): void {
    const { outbox, told } = this.#registry;
    const [first, last] = [late[0], late.at(-1)];
    if (!first || !last) return;
    const key = `merged/${now}/${first.key.replace(/^merged\/\d+\//, '')}`;
    const keys = late.map((message) => message.key);
    const before = told.ofMessages(keys);
    for (const one of keys) outbox.givenUp(one, now, `merged into ${key}`);
    told.drop(keys);
    const { rows, records } = this.#stillToTell(before, key, now);
    if (rows.size === 0) return;
    told.add(site.site.id, records);
    const alarms = [...rows.keys()];
    const plan: PersonTelling = {
      ...{
        key,
        person: person.id,
        via,
        to,
        form: alarms.length === 1 ? 'single' : 'bundle',
        event: 'raised',
      },
      ...{ alarms, events: alarms.map(() => 'raised' as const), step: 0, closing: false },
      ...{ caution: records.some(({ caution }) => caution), unanswered: [], unreached: [] },
    };
    this.#write(site, plan, rows, now);
    outbox.follow(key, { ...last, attempts: Math.max(...late.map(({ attempts }) => attempts)) });
  }

  /** Of what was told in vain: what lasts and waits for an answer, the gravest first, each as told now. */
  #stillToTell(
    before: readonly ToldRecord[],
    message: string,
    now: number,
  ): { rows: Map<string, AlarmRow>; records: ToldRecord[] } {
    const found = before.flatMap((record) => {
      const row = this.#registry.alarms.standingFor(record.alarm);
      return row && lasts(row, now) ? [{ row, record }] : [];
    });
    found.sort((one, other) => byUrgency(one.row, other.row));
    const cautioned = new Set(found.filter(({ record }) => record.caution).map(({ row }) => row.id));
    const records = found.map(({ row: { id, bed }, record }) => ({
      ...record,
      ...{ message, alarm: id, bed, event: 'raised' as const, at: now, caution: cautioned.has(id) },
    }));
    return {
      rows: new Map(found.map(({ row }) => [row.id, row])),
      records: [...new Map(records.map((record) => [record.alarm, record])).values()],
    };
  }

  #noteUnreachable(site: string, alarms: readonly string[]): void {
    const text = alarms.join(' ');
    if ((this.#unreachable.get(site) ?? '') === text) return;
    this.#unreachable.set(site, text);
    this.#options.onUnreachable(site, alarms);
  }
}

/** Everything is on the console anyway. */
const hasReach = ({ reach }: Person): boolean => reach.some(({ via }) => via !== 'console');

const withoutConsole = (person: Person): Person => ({
  ...person,
  reach: person.reach.filter(({ via }) => via !== 'console'),
});

/** Only a short message is too short for it. */
const withMore = (body: PersonBody, more: string, names: readonly string[]): PersonBody => ({
  ...body,
  ...{ text: `${body.text} ${more}`, longText: `${body.longText}\n\n${withDegrees(more, names)}` },
});

/** It is open, and nobody has answered it or put it off. */
const lasts = ({ clearedAt, withdrawn, acknowledgement, shelving }: AlarmRow, now: number): boolean =>
  clearedAt === null && !withdrawn && acknowledgement === null && !((shelving?.until ?? 0) > now);

function toTell(row: AlarmRow, counted: (time: number) => number): AlarmToTell {
  const { id, bed, kind, action, priority, raisedAt, clearedAt, acknowledgement, withdrawn, movedAt } = row;
  return {
    ...{ id, bed, kind, action, priority, raisedAt, clearedAt, acknowledgement, withdrawn },
    movedAt: movedAt && counted(movedAt),
    shelvedUntil: row.shelving?.until ?? null,
    endKnown: row.endKnown,
    formerly: row.formerly,
    ...(row.knownAt !== null && { knownAt: counted(row.knownAt) }),
    ...(row.endKnownAt !== null && { endKnownAt: counted(row.endKnownAt) }),
  };
}
