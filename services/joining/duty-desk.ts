/**
 * Tells people of alarms: plans who is told now from what is at rest, writes their messages and what was told in one
 * transaction, and says when to plan again. A crash between leaves either all of it or none, and the next plan finds
 * what is still to be told.
 */
import {
  type AlarmToTell,
  type PersonTelling,
  planTelling,
  type ReachWay,
  type ToldRecord,
} from '../core/alarms/duty/index.js';
import type { Person, SiteDescription } from '../core/model/site.js';
import { tellingInForce } from '../core/model/telling-defaults.js';
import { DAY_ms, MINUTE_ms } from '../core/model/time.js';
import type { AlarmRow, Registry } from '../registry/index.js';
import { asAlarm } from './alarm-keeper.js';
import { type ToldAlarm, writtenFor } from './duty-messages.js';

export interface DutyOptions {
  /** Wall clock, ms. */
  readonly now: () => number;
  /** Whether messages can go out this way at all. */
  readonly hasWay: (via: string) => boolean;
  /** Whether answers come back this way. */
  readonly answers: (via: string) => boolean;
  /** A link by which a person can answer; undefined where the service has no address for people. */
  readonly linkFor: (alarm: string, person: string) => string | undefined;
  /** Alarms of a site that nobody can be told of, once each time that list changes. */
  readonly onUnreachable: (site: string, alarms: readonly string[]) => void;
}

/** Alarms that ended so long ago are no longer told of. */
const ENDED_ms = 2 * DAY_ms;
/** An address is dead for now when a message has waited so long and was tried so often. Judgement. */
const STUCK = { attempts: 3, ms: 15 * MINUTE_ms } as const;
/** Messages that wait so long for one address, and so many of them, become one. Judgement. */
const STALE = { ms: 60 * MINUTE_ms, count: 2 } as const;

export class DutyDesk {
  readonly #registry: Registry;
  readonly #options: DutyOptions;
  readonly #unreachable = new Map<string, string>();

  constructor(registry: Registry, options: DutyOptions) {
    this.#registry = registry;
    this.#options = options;
  }

  /**
   * Plans for every site, within the caller's transaction.
   *
   * @returns wall clock at which to plan again if nothing changes, ms; null where nothing is to come
   */
  plan(): number | null {
    const times = this.#registry.sites
      .descriptions()
      .filter(({ people }) => people.some(hasReach))
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
      alarms: rows.map(toTell),
      told: this.#told(site.site.id, rows, now),
      deadWays: this.#deadWays(people, now),
    });
    const byId = new Map(rows.map((row) => [row.id, row]));
    for (const one of plan.tell) this.#write(site, one, byId, now);
    this.#registry.told.add(site.site.id, plan.record);
    this.#noteUnreachable(site.site.id, plan.unreachable);
    return plan.nextAt;
  }

  #told(site: string, rows: readonly AlarmRow[], now: number): ToldRecord[] {
    const all = [
      ...this.#registry.told.cautions(site),
      ...this.#registry.told.since(site, now - ENDED_ms),
      ...rows.flatMap(({ id, formerly }) =>
        [id, ...formerly].flatMap((alarm) => this.#registry.told.ofAlarm(alarm)),
      ),
    ];
    return [...new Map(all.map((one) => [`${one.message} ${one.alarm} ${one.event}`, one])).values()];
  }

  #deadWays(people: readonly Person[], now: number): ReachWay[] {
    const unusable = people.flatMap(({ reach }) => reach.filter(({ via }) => !this.#options.hasWay(via)));
    return [
      ...unusable,
      ...this.#registry.answers.stopped(),
      ...this.#registry.outbox.stuck(STUCK.attempts, now - STUCK.ms),
    ];
  }

  #write(site: SiteDescription, plan: PersonTelling, rows: ReadonlyMap<string, AlarmRow>, now: number): void {
    const person = site.people.find(({ id }) => id === plan.person);
    if (!person) return;
    const alarms = plan.alarms.flatMap((id) => this.#toldAlarm(site, rows.get(id), now));
    const [first] = plan.alarms;
    const { body, more } = writtenFor({
      ...{ plan, person, alarms, now, mayAnswer: this.#options.answers(plan.via) },
      people: new Map(site.people.map((one) => [one.id, one])),
      answerUrl: first === undefined ? undefined : this.#options.linkFor(first, person.id),
    });
    const shared = { via: plan.via, to: plan.to, alarm: first ?? '', event: plan.event };
    const messages = [{ ...shared, key: plan.key, body: JSON.stringify(body) }];
    if (more !== undefined) {
      const key = `${plan.key}/more`;
      messages.push({ ...shared, key, body: JSON.stringify({ ...body, key, text: more }) });
    }
    this.#registry.outbox.add(messages, now);
  }

  #toldAlarm(site: SiteDescription, row: AlarmRow | undefined, now: number): ToldAlarm[] {
    const bed = site.beds.find(({ id }) => id === row?.bed);
    if (!row || !bed) return [];
    const number = this.#registry.alarms.numberOf(row.id, site.site.id);
    return [{ alarm: asAlarm(row, now), number, bed, knownAt: row.knownAt ?? now }];
  }

  /** After a night without network: what still waits for one address becomes one message of what still holds. */
  #mergeStale(site: SiteDescription, people: readonly Person[], now: number): void {
    const rows = new Map(
      this.#registry.alarms.toTell(site.site.id, now - ENDED_ms).map((row) => [row.id, row]),
    );
    for (const person of people)
      for (const way of person.reach) {
        const late = this.#registry.outbox
          .late(now - STALE.ms, way.via, way.to)
          .filter((key) => this.#registry.told.isTo(person.id, site.site.id, key.replace(/\/more$/, '')));
        if (late.length >= STALE.count) this.#merge(site, person, way, late, rows, now);
      }
  }

  #merge(
    site: SiteDescription,
    person: Person,
    { via, to }: ReachWay,
    keys: readonly string[],
    rows: ReadonlyMap<string, AlarmRow>,
    now: number,
  ): void {
    const key = `merged/${keys[0]}`;
    const told = this.#registry.told.alarmsOf(keys);
    const still = told.filter((id) => rows.get(id)?.clearedAt === null && !rows.get(id)?.withdrawn);
    for (const one of keys) this.#registry.outbox.givenUp(one, now, `merged into ${key}`);
    if (still.length === 0) return;
    this.#registry.told.merge(keys, key);
    const events = still.map(() => 'raised' as const);
    const plan: PersonTelling = {
      ...{ key, person: person.id, via, to, form: still.length === 1 ? 'single' : 'bundle', event: 'raised' },
      ...{ alarms: still, events, step: 0, caution: false, closing: false, unanswered: [], unreached: [] },
    };
    this.#write(site, plan, rows, now);
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

function toTell(row: AlarmRow): AlarmToTell {
  const { id, bed, kind, action, priority, raisedAt, clearedAt, acknowledgement, withdrawn, movedAt } = row;
  return {
    ...{ id, bed, kind, action, priority, raisedAt, clearedAt, acknowledgement, withdrawn, movedAt },
    shelvedUntil: row.shelving?.until ?? null,
    endKnown: row.endKnown,
    formerly: row.formerly,
    ...(row.knownAt !== null && { knownAt: row.knownAt }),
    ...(row.endKnownAt !== null && { endKnownAt: row.endKnownAt }),
  };
}
