/** Tries whether messages arrive: a marked test to everybody who would be told of a bed, by every way that they have. */
import { randomUUID } from 'node:crypto';
import { localClock } from '../core/alarms/duty/index.js';
import { drillMessage, drillSubject } from '../core/alarms/languages/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Bed, Person, SiteDescription } from '../core/model/site.js';
import { DAY_ms, formatTime, HOUR_ms } from '../core/model/time.js';
import type { DrillView } from '../http/index.js';
import type { Drill, Registry } from '../registry/index.js';

export interface DrillOptions {
  readonly now: () => number;
  readonly hasWay: (via: string) => boolean;
  readonly webhooks: readonly string[];
}

/** A monthly drill is so long after the last, at this hour of the site's clock. Judgement: people are awake. */
const MONTH_ms = 30 * DAY_ms;
const DRILL_min = 9 * 60;

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
   * @throws SandlarderError NOT_FOUND for a bed that is none
   */
  start(bedId: string, by: string): DrillView {
    const site = this.#registry.sites.descriptions().find(({ beds }) => beds.some(({ id }) => id === bedId));
    const bed = site?.beds.find(({ id }) => id === bedId);
    if (!site || !bed) throw new SandlarderError('NOT_FOUND', `no bed has the id "${bedId}"`);
    const [id, at] = [randomUUID(), this.#options.now()];
    const people = concerned(site, bed);
    const usable = (person: Person) =>
      person.reach.filter(({ via }) => via !== 'console' && this.#options.hasWay(via));
    const targets = [
      { person: 'site', via: 'console', to: 'console', language: 'en' },
      ...this.#options.webhooks.map((to) => ({ person: 'site', via: 'webhook', to, language: 'en' })),
      ...people.flatMap((person) =>
        usable(person).map(({ via, to }) => ({ person: person.id, via, to, language: person.language })),
      ),
    ];
    const messages = targets.map((target, index) => ({ ...target, key: `drill/${id}/${index}` }));
    this.#registry.outbox.add(
      messages.map(({ key, via, to, language }) => ({
        ...{ key, via, to, alarm: '', event: 'drill', body: bodyOf(key, site, bed, language, at) },
      })),
      at,
    );
    const drill: Drill = {
      ...{ id, site: site.site.id, bed: bedId, at, by },
      messages: messages.map(({ person, via, key }) => ({ person, via, key })),
      without: people.filter((person) => usable(person).length === 0).map((person) => person.id),
    };
    this.#registry.drills.add(drill);
    return this.#view(drill);
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
      const last = this.#registry.drills.newestAt(site.id) ?? Number.NEGATIVE_INFINITY;
      if (now < hour || now >= hour + HOUR_ms || now - last < MONTH_ms) continue;
      for (const { id } of beds) this.start(id, 'every month');
    }
  }

  #view({ id, bed, at, by, messages, without }: Drill): DrillView {
    return {
      ...{ id, bed, at, by, without },
      messages: messages.map(({ person, via, key }) => {
        const status = this.#registry.outbox.statusOf(key);
        const deliveredAt = status?.deliveredAt ?? null;
        const after_s = deliveredAt === null ? null : (deliveredAt - at) / 1000;
        return { person, via, after_s, gone: status?.givenUpAt === null, error: status?.error ?? null };
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

function bodyOf(key: string, { site }: SiteDescription, bed: Bed, language: string, at: number): string {
  const { text } = drillMessage(bed, { language });
  const subject = drillSubject(bed, language);
  const shared = { key, event: 'drill', at: formatTime(at), text, subject, language, bedName: bed.name };
  return JSON.stringify({ ...shared, line: text, longText: text, site: site.id });
}
