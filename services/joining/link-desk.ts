/** What a link shows, and what it does when it is used: of all that its message told, each once. */
import { thanksMessage } from '../core/alarms/answers/index.js';
import { bundleSubject, shortMessage } from '../core/alarms/languages/index.js';
import { byUrgency } from '../core/alarms/urgency.js';
import { SandlarderError } from '../core/errors.js';
import type { SiteDescription } from '../core/model/site.js';
import type { LinkAnswer, LinkedAlarm, LinkView, UsedLink } from '../http/index.js';
import type { AlarmRow } from '../registry/index.js';
import { asAlarm } from './alarm-keeper.js';
import type { AnswerDesk } from './answer-desk.js';
import type { AnswerLinks, Link } from './answer-links.js';
import type { AlarmAnswer } from './answered-alarms.js';
import type { Station } from './station.js';

export interface LinkParts {
  readonly station: Station;
  readonly answers: AnswerDesk;
  /** Absent where the service has no address for people. */
  readonly links: AnswerLinks | undefined;
  /** Wall clock, ms. */
  readonly now: () => number;
}

/** An alarm as it was told, and the one that stands for it now. */
interface Linked {
  readonly told: string;
  readonly row: AlarmRow;
}

export class LinkDesk {
  readonly #parts: LinkParts;

  constructor(parts: LinkParts) {
    this.#parts = parts;
  }

  /** @throws SandlarderError NOT_FOUND for a link that is none, or of alarms that are none here */
  view(token: string): LinkView {
    const link = this.#read(token);
    const linked = this.#linked(link);
    const site = this.#siteOf(linked);
    const person = site?.people.find(({ id }) => id === link.person);
    const [first] = linked;
    if (!site || !first) throw new SandlarderError('NOT_FOUND', 'link: its alarm is not known here');
    const language = person?.language ?? 'en';
    const alarms = linked.map((one) => this.#shown(link, one, site, language));
    const items = linked.map(({ row }) => ({ bed: { name: bedNameOf(site, row) }, episode: row }));
    const title = linked.length === 1 ? bedNameOf(site, first.row) : bundleSubject(items, language);
    return { person: person?.name ?? link.person, language, title, alarms };
  }

  /**
   * Takes an answer for the alarm that it names, or for all that still wait for one.
   *
   * @throws SandlarderError NOT_FOUND as of `view`; CONFLICT where nothing waits for an answer any more; BAD_REQUEST
   *   where it says what was found and there are several alarms
   */
  use(token: string, answer: LinkAnswer): UsedLink {
    const { station, answers } = this.#parts;
    const link = this.#read(token);
    const { person, language, alarms } = this.view(token);
    const open = alarms.filter(
      ({ id, open: waits }) => waits && (answer.alarm === undefined || id === answer.alarm),
    );
    if (answer.kind === 'found' && new Set(open.map(({ bedName }) => bedName)).size > 1)
      throw new SandlarderError('BAD_REQUEST', 'alarm: expected the one that it was found for');
    const rows = this.#linked(link).filter(({ told }) => open.some(({ id }) => id === told));
    station.inTransaction(() => {
      this.#useUp(link, rows);
      answers.act(
        answerOf(answer),
        rows.map(({ row }) => row),
        person,
      );
      this.#keep(link, answer, rows);
    });
    const beds = open.map(({ bedName }) => bedName);
    return { view: this.view(token), said: thanksMessage(answerOf(answer), beds, language).text };
  }

  /** Beside what came by the other ways. Its text is in the words of the form. */
  #keep(
    { id, person }: Link,
    { kind, findings, repacked, hours }: LinkAnswer,
    rows: readonly Linked[],
  ): void {
    const { station, now } = this.#parts;
    const said = {
      seen: [],
      found: [...findings, ...(repacked ? ['repacked'] : [])],
      quiet: [`${hours} h`],
    };
    station.registry.answers.add({
      ...{ id: `link/${id}/${rows.map(({ told }) => told).join('/')}`, via: 'link', sender: person, person },
      ...{ text: [kind, ...said[kind]].join(' '), at: now(), site: rows[0]?.row.site ?? null },
      outcome: `${kind}: ${rows.map(({ row }) => row.id).join(', ')}`,
    });
  }

  #useUp(link: Link, rows: readonly Linked[]): void {
    const { station, now } = this.#parts;
    const used = rows.map(({ told }) => station.registry.answers.useLink(useOf(link, told), now()));
    if (used.length === 0 || used.includes(false))
      throw new SandlarderError('CONFLICT', 'link: expected an alarm that lasts and was not answered by it');
  }

  #read(token: string): Link {
    const { links } = this.#parts;
    if (!links)
      throw new SandlarderError(
        'NOT_FOUND',
        'link: this service makes none: it was started without --public-url',
      );
    return links.read(token);
  }

  /** What its message told of, each alarm that stands once, the gravest first. */
  #linked({ alarm, message }: Link): Linked[] {
    const { alarms, told } = this.#parts.station.registry;
    const records = message === undefined ? [] : told.ofMessages([message]);
    const lasting = records.filter(({ event }) => event === 'raised' || event === 'refined');
    // A message that was merged with others before it arrived has no records any more.
    const ids = lasting.length === 0 ? [alarm] : lasting.map((record) => record.alarm);
    const found = new Map<string, Linked>();
    for (const id of ids) {
      const row = alarms.standingFor(id);
      if (row && !found.has(row.id)) found.set(row.id, { told: id, row });
    }
    return [...found.values()].sort((one, other) => byUrgency(one.row, other.row));
  }

  #siteOf(linked: readonly Linked[]): SiteDescription | undefined {
    return this.#parts.station.registry.sites
      .descriptions()
      .find(({ site }) => site.id === linked[0]?.row.site);
  }

  #shown(link: Link, { told, row }: Linked, site: SiteDescription, language: string): LinkedAlarm {
    const { station, now } = this.#parts;
    const { answers } = station.registry;
    const bed = site.beds.find(({ id }) => id === row.bed);
    const used = answers.isUsed(link.id) || answers.isUsed(useOf(link, told));
    return {
      ...{ id: told, bedName: bedNameOf(site, row) },
      text: bed
        ? shortMessage('raised', asAlarm(row, now()), { ...bed, timeZone: site.site.timezone }, { language })
            .text
        : row.text,
      open: !row.withdrawn && row.clearedAt === null && !used,
    };
  }
}

const useOf = ({ id }: Link, alarm: string): string => `${id}/${alarm}`;

const bedNameOf = ({ beds }: SiteDescription, row: AlarmRow): string =>
  beds.find(({ id }) => id === row.bed)?.name ?? row.bed;

function answerOf({ kind, findings, repacked, hours }: LinkAnswer): AlarmAnswer {
  if (kind === 'found') return { kind, findings, repacked, numbers: [] };
  return kind === 'quiet' ? { kind, hours, numbers: [] } : { kind, numbers: [] };
}
