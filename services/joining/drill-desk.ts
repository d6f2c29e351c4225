/** Tries whether messages arrive: a marked test to everybody who would be told of a bed, by every way that they have. */
import { randomUUID } from 'node:crypto';
import { capDrillOf } from '../core/alarms/cap-drill.js';
import { localClock } from '../core/alarms/duty/index.js';
import { drillMessage, drillSubject } from '../core/alarms/languages/index.js';
import { SandlarderError } from '../core/errors.js';
import type { WebhookBody } from '../core/model/people.js';
import type { Bed, Person, SiteDescription } from '../core/model/site.js';
import { DAY_ms, formatTime, HOUR_ms } from '../core/model/time.js';
import type { DrillView } from '../http/index.js';
import type { Drill, Registry } from '../registry/index.js';
import { CAP_SCOPE, capSenderOf } from './cap-station.js';

export interface DrillOptions {
  readonly now: () => number;
  readonly hasWay: (via: string) => boolean;
  readonly webhooks: readonly string[];
}

/** A monthly drill is so long after the last, at this hour of the site's clock. Judgement: people are awake. */
const MONTH_ms = 30 * DAY_ms;
const DRILL_min = 9 * 60;
const STOPPED = 'its receiver asked that messages stop';

interface Target {
  readonly person: string;
  readonly via: string;
  readonly to: string;
  readonly language: string;
  readonly body?: WebhookBody | undefined;
}

export class DrillDesk {
  readonly #registry: Registry;
  readonly #options: DrillOptions;

  constructor(registry: Registry, options: DrillOptions) {
    this.#registry = registry;
    this.#options = options;
  }

  /**
   * Writes the messages, within the caller's transaction.
   *
   * @param sent by address: messages of drills that began with this one; they stand for theirs, so that whoever keeps
   *   many beds gets one
   * @throws SandlarderError NOT_FOUND for a bed that is none
   */
  start(bedId: string, by: string, sent = new Map<string, string>()): DrillView {
    const site = this.#registry.sites.descriptions().find(({ beds }) => beds.some(({ id }) => id === bedId));
    const bed = site?.beds.find(({ id }) => id === bedId);
    if (!site || !bed) throw new SandlarderError('NOT_FOUND', `no bed has the id "${bedId}"`);
    const [id, at] = [randomUUID(), this.#options.now()];
    const people = concerned(site, bed);
    const { usable, stopped } = this.#reachOf();
    const targets: Target[] = [
      { person: 'site', via: 'console', to: 'console', language: 'en' },
      ...this.#options.webhooks.map((to) => ({ person: 'site', via: 'webhook', to, language: 'en' })),
      ...people.flatMap((person) =>
        usable(person).map((way) => ({ ...way, person: person.id, language: person.language })),
      ),
    ];
    const messages = targets.map((target, index) => {
      const address = `${target.via} ${target.to}`;
      const earlier = sent.get(address);
      const key = earlier ?? `drill/${id}/${index}`;
      sent.set(address, key);
      return { ...target, key, isNew: earlier === undefined };
    });
    const unasked = people.flatMap((person) => stopped(person).map(({ via, to }) => ({ person, via, to })));
    const kept = unasked.map(({ person, via, to }, index) => {
      const key = `drill/${id}/${targets.length + index}`;
      const body = bodyOf({ key, language: person.language }, site, bed, at);
      this.#registry.outbox.add([{ key, via, to, alarm: '', event: 'drill', body }], at);
      this.#registry.outbox.givenUp(key, at, STOPPED);
      return { person: person.id, via, key };
    });
    this.#registry.outbox.add(
      messages
        .filter(({ isNew }) => isNew)
        .map((message) => ({
          ...{ key: message.key, via: message.via, to: message.to, alarm: '', event: 'drill' },
          body:
            message.body === 'cap' ? capBodyOf(message.key, site, bed, at) : bodyOf(message, site, bed, at),
        })),
      at,
    );
    const drill: Drill = {
      ...{ id, site: site.site.id, bed: bedId, at, by },
      messages: [...messages.map(({ person, via, key }) => ({ person, via, key })), ...kept],
      without: people.filter((person) => usable(person).length === 0).map((person) => person.id),
    };
    this.#registry.drills.add(drill);
    return this.#view(drill);
  }

  /** Addresses of a person that messages can go to, and those whose owner asked that they stop. */
  #reachOf(): Record<'usable' | 'stopped', (person: Person) => Person['reach']> {
    const asked = new Set(this.#registry.answers.stopped().map(({ via, to }) => `${via} ${to}`));
    const isStopped = ({ via, to }: Person['reach'][number]): boolean => asked.has(`${via} ${to}`);
    const ways = ({ reach }: Person): Person['reach'] =>
      reach.filter(({ via }) => via !== 'console' && this.#options.hasWay(via));
    return {
      usable: (person) => ways(person).filter((way) => !isStopped(way)),
      stopped: (person) => ways(person).filter(isStopped),
    };
  }

  /** @throws SandlarderError NOT_FOUND */
  get(id: string): DrillView {
    const drill = this.#registry.drills.get(id);
    if (!drill) throw new SandlarderError('NOT_FOUND', `no drill has the id "${id}"`);
    return this.#view(drill);
  }

  /** Drills that a site asks for every month, within the caller's transaction. */
  startDue(): void {
    const now = this.#options.now();
    for (const { site, beds } of this.#registry.sites.descriptions()) {
      if (site.telling?.drill !== 'monthly' || beds.length === 0) continue;
      const clock = localClock(site.timezone);
      const hour = clock.firstAt(clock.dayOf(now), DRILL_min);
      if (now < hour || now >= hour + HOUR_ms) continue;
      const lastOf = (bed: string): number =>
        this.#registry.drills.newestAt(site.id, bed) ?? Number.NEGATIVE_INFINITY;
      const sent = new Map<string, string>();
      for (const { id } of beds) if (now - lastOf(id) >= MONTH_ms) this.start(id, 'every month', sent);
    }
  }

  #view({ id, bed, at, by, messages, without }: Drill): DrillView {
    return {
      ...{ id, bed, at, by, without },
      messages: messages.map(({ person, via, key }) => {
        const status = this.#registry.outbox.statusOf(key);
        const secondsTo = (time: number | null = null): number | null =>
          time === null ? null : (time - at) / 1000;
        const [after_s, received_s] = [secondsTo(status?.deliveredAt), secondsTo(status?.receivedAt)];
        return {
          person,
          via,
          after_s,
          received_s,
          gone: status?.givenUpAt === null,
          error: status?.error ?? null,
        };
      }),
    };
  }
}

/** Everybody who may be told of a bed: its keepers, followers and leads, and the steps of its escalation. */
function concerned({ site, people, groups }: SiteDescription, bed: Bed): Person[] {
  const membersOf = (id: string): string[] => {
    const group = groups.find((one) => one.id === id);
    return group ? [group.lead, ...group.members] : [id];
  };
  const ids = new Set([
    ...(bed.keeper === undefined ? [] : membersOf(bed.keeper)),
    ...(bed.escalation ?? site.escalation ?? []).flatMap(({ to }) => membersOf(to)),
    ...people.filter(({ beds, lead }) => lead || beds?.includes(bed.id)).map(({ id }) => id),
  ]);
  return people.filter(({ id }) => ids.has(id));
}

function capBodyOf(key: string, { site }: SiteDescription, bed: Bed, sentAt: number): string {
  return capDrillOf({
    ...{ identifier: `${site.id}.${key.replaceAll('/', '.')}`, sender: capSenderOf(site.id) },
    ...{ siteName: site.name, bedName: bed.name, scope: CAP_SCOPE, sentAt },
    text: drillMessage(bed, { language: 'en' }).text,
  });
}

function bodyOf(
  { key, language }: { readonly key: string; readonly language: string },
  { site }: SiteDescription,
  bed: Bed,
  at: number,
): string {
  const { text } = drillMessage(bed, { language });
  const subject = drillSubject(bed, language);
  const shared = { key, event: 'drill', at: formatTime(at), text, subject, language, bedName: bed.name };
  return JSON.stringify({ ...shared, line: text, longText: text, site: site.id });
}
