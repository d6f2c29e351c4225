/** What a planned telling says: the short message in the person's language, the subject, and the long text. */

import { withDegrees } from '../core/alarms/degrees.js';
import { alarmDocument } from '../core/alarms/document.js';
import type { PersonTelling } from '../core/alarms/duty/index.js';
import {
  type BundleItem,
  bundleMessage,
  bundleSubject,
  CATALOGUES,
  catalogueOf,
  escalationNote,
  eventSubject,
  say,
  shortMessage,
  summaryMessage,
  summarySubject,
  unreachedNote,
} from '../core/alarms/languages/index.js';
import type { MessageBody } from '../core/alarms/telling.js';
import { type AlarmEvent, eventLine, longText } from '../core/alarms/text.js';
import type { Alarm } from '../core/model/alarm.js';
import type { Bed, Person } from '../core/model/site.js';
import { formatTime, HOUR_ms } from '../core/model/time.js';

export interface ToldAlarm {
  readonly alarm: Alarm;
  readonly number: number;
  /** With the clock of its site. */
  readonly bed: Bed & { readonly timeZone: string };
  /** Wall clock at which it became known, ms. */
  readonly knownAt: number;
}

export interface Telling {
  readonly plan: PersonTelling;
  readonly person: Person;
  /** In the order of the plan. */
  readonly alarms: readonly ToldAlarm[];
  /** By id. */
  readonly people: ReadonlyMap<string, Person>;
  readonly mayAnswer: boolean;
  /** IANA name of the site's zone. */
  readonly timeZone: string;
  readonly answerUrl: string | undefined;
  /** Wall clock, ms. */
  readonly now: number;
}

/** A body as a person's way takes it. */
export interface PersonBody extends Omit<MessageBody, 'event' | 'alarm' | 'bedName'> {
  readonly event: string;
  readonly alarm?: MessageBody['alarm'];
  readonly bedName?: string;
  readonly text: string;
  readonly subject: string;
  readonly language: string;
  readonly number?: number;
  readonly answerUrl?: string;
  /** The same in a sentence. */
  readonly answerText?: string;
}

export interface Written {
  readonly body: PersonBody;
  /** A message of its own that follows: what did not fit. */
  readonly more: string | undefined;
}

const itemsOf = (alarms: readonly ToldAlarm[]): BundleItem[] =>
  alarms.map(({ alarm, bed, number }) => ({ bed, episode: alarm, number }));

/** Who has not answered or cannot be reached, for whoever is told next. */
function noteOf({ plan, people, alarms, person, now }: Telling): string | undefined {
  const nameOf = ([id]: readonly string[]): string | undefined =>
    id === undefined ? undefined : people.get(id)?.name;
  const [name, unreached] = [nameOf(plan.unanswered), nameOf(plan.unreached)];
  if (name === undefined) return unreached && unreachedNote(unreached, person.language);
  const since = Math.min(...alarms.map(({ knownAt }) => knownAt));
  return escalationNote(name, Math.max(0, Math.floor((now - since) / HOUR_ms)), person.language);
}

/** Of a draft it is said, in its own words and in English, in which the evidence follows. */
function draftNote(language: string): string[] {
  const catalogue = catalogueOf(language);
  if (catalogue.nativeReviewed) return [];
  return [[catalogue, CATALOGUES.en].map((one) => say(one, 'page.draft')).join('\n')];
}

const linkIn = (url: string | undefined, language: string): Partial<PersonBody> =>
  url === undefined ? {} : { answerUrl: url, answerText: say(catalogueOf(language), 'page.link', { url }) };

/** What is sent for one alarm, or for several in one message. */
export function writtenFor(telling: Telling): Written {
  const { plan, alarms } = telling;
  const [first] = alarms;
  return plan.form === 'single' && first ? writtenSingle(telling, first) : writtenSeveral(telling);
}

function writtenSingle(telling: Telling, { alarm, bed, number }: ToldAlarm): Written {
  const { plan, person, mayAnswer, answerUrl, now, timeZone } = telling;
  const { language } = person;
  const note = noteOf(telling);
  const { text, more } = shortMessage(plan.event, alarm, bed, {
    ...{ language, number, mayAnswer, caution: plan.caution },
    ...(note !== undefined && { note }),
  });
  return {
    body: {
      ...{ key: plan.key, event: plan.event, at: formatTime(now), alarm: alarmDocument(alarm) },
      ...{ bedName: bed.name, line: eventLine(plan.event, alarm, bed), text, language, number },
      longText: [
        ...[withDegrees(text, [bed.name]), ...draftNote(language)],
        longText(plan.event, alarm, bed, timeZone),
      ].join('\n\n'),
      subject: withDegrees(eventSubject(plan.event, alarm, bed, language), [bed.name]),
      ...linkIn(answerUrl, language),
    },
    more,
  };
}

/** What is over is said in a line each: so many of them, and then how many more. Judgement: five short messages. */
const MOST_ENDED = 8;

/** What ended or was taken back, in a text of its own: none of it needs a look. */
function endedText({ person: { language } }: Telling, ended: readonly Item[]): string | undefined {
  const lines = ended
    .slice(0, MOST_ENDED)
    .map(({ event, alarm, bed }) => shortMessage(event, alarm, bed, { language }).text);
  const more = ended.length - lines.length;
  return lines.length === 0 ? undefined : [...lines, ...(more > 0 ? [`+${more}`] : [])].join(' ');
}

/** What lasts, as a bundle or a summary, with how to handle rotten roots where that is due. */
function lastingText({ plan, person, mayAnswer }: Telling, lasting: readonly Item[]): string | undefined {
  const options = { language: person.language, mayAnswer };
  if (lasting.length === 0) return undefined;
  const items = itemsOf(lasting);
  const { text } =
    plan.form === 'summary'
      ? summaryMessage({ ...stormOf(lasting), first: items }, options)
      : bundleMessage(items, options);
  return plan.caution ? `${text} ${say(catalogueOf(person.language), 'caution')}` : text;
}

interface Item extends ToldAlarm {
  readonly event: AlarmEvent;
}

const isEnd = ({ event }: Item): boolean => event === 'cleared' || event === 'withdrawn';

const stormOf = (alarms: readonly ToldAlarm[]): { alarms: number; beds: number } => ({
  alarms: alarms.length,
  beds: new Set(alarms.map(({ bed }) => bed.id)).size,
});

function subjectOf({ plan, person }: Telling, lasting: readonly Item[], all: readonly Item[]): string {
  const [first] = all;
  if (lasting.length === 0 && first)
    return eventSubject(first.event, first.alarm, first.bed, person.language);
  if (plan.form === 'summary') return summarySubject(stormOf(lasting), person.language);
  return bundleSubject(itemsOf(lasting), person.language);
}

function writtenSeveral(telling: Telling): Written {
  const { plan, person, alarms, answerUrl, now } = telling;
  const { language } = person;
  const items = alarms.map((told, at) => ({ ...told, event: plan.events[at] ?? plan.event }));
  const lasting = items.filter((item) => !isEnd(item));
  const ended = endedText(telling, items.filter(isEnd));
  const first = lastingText(telling, lasting);
  const text = first ?? ended ?? '';
  const lines = items.map(({ event, alarm, bed }) => eventLine(event, alarm, bed));
  const names = alarms.map(({ bed }) => bed.name);
  return {
    body: {
      ...{ key: plan.key, event: plan.form, at: formatTime(now), line: text, text, language },
      longText: withDegrees([text, ...draftNote(language), ...lines].join('\n\n'), names),
      subject: withDegrees(subjectOf(telling, lasting, items), names),
      ...linkIn(lasting.length > 0 ? answerUrl : undefined, language),
    },
    more: first === undefined ? undefined : ended,
  };
}
