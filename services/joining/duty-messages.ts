/** What a planned telling says: the short message in the person's language, the subject, and the long text. */
import { alarmDocument } from '../core/alarms/document.js';
import type { PersonTelling } from '../core/alarms/duty/index.js';
import {
  type BundleItem,
  bundleMessage,
  bundleSubject,
  escalationNote,
  eventSubject,
  shortMessage,
  summaryMessage,
  summarySubject,
} from '../core/alarms/languages/index.js';
import type { MessageBody } from '../core/alarms/telling.js';
import { eventLine, longText } from '../core/alarms/text.js';
import type { Alarm } from '../core/model/alarm.js';
import type { Bed, Person } from '../core/model/site.js';
import { formatTime, HOUR_ms } from '../core/model/time.js';

export interface ToldAlarm {
  readonly alarm: Alarm;
  readonly number: number;
  readonly bed: Bed;
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
}

export interface Written {
  readonly body: PersonBody;
  /** A message of its own that follows: what did not fit. */
  readonly more: string | undefined;
}

const itemsOf = (alarms: readonly ToldAlarm[]): BundleItem[] =>
  alarms.map(({ alarm, bed, number }) => ({ bed, episode: alarm, number }));

/** Who has not answered, for whoever is told next. */
function noteOf({ plan, people, alarms, person, now }: Telling): string | undefined {
  const [silent] = [...plan.unanswered, ...plan.unreached];
  const name = silent === undefined ? undefined : people.get(silent)?.name;
  if (name === undefined) return undefined;
  const since = Math.min(...alarms.map(({ knownAt }) => knownAt));
  return escalationNote(name, Math.max(0, Math.floor((now - since) / HOUR_ms)), person.language);
}

export function writtenFor(telling: Telling): Written {
  const { plan, alarms } = telling;
  const [first] = alarms;
  return plan.form === 'single' && first ? writtenSingle(telling, first) : writtenSeveral(telling);
}

function writtenSingle(telling: Telling, { alarm, bed, number }: ToldAlarm): Written {
  const { plan, person, mayAnswer, answerUrl, now } = telling;
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
      longText: [text, longText(plan.event, alarm, bed)].join('\n\n'),
      subject: eventSubject(plan.event, alarm, bed, language),
      ...(answerUrl !== undefined && { answerUrl }),
    },
    more,
  };
}

function writtenSeveral(telling: Telling): Written {
  const { plan, person, alarms, mayAnswer, answerUrl, now } = telling;
  const { language } = person;
  const options = { language, mayAnswer };
  const items = itemsOf(alarms);
  const storm = { alarms: alarms.length, beds: new Set(alarms.map(({ bed }) => bed.id)).size };
  const isStorm = plan.form === 'summary';
  const { text } = isStorm
    ? summaryMessage({ ...storm, first: items }, options)
    : bundleMessage(items, options);
  const lines = alarms.map(({ alarm, bed }, at) => eventLine(plan.events[at] ?? plan.event, alarm, bed));
  return {
    body: {
      ...{ key: plan.key, event: plan.form, at: formatTime(now), line: text, text, language },
      longText: [text, ...lines].join('\n\n'),
      subject: isStorm ? summarySubject(storm, language) : bundleSubject(items, language),
      ...(answerUrl !== undefined && { answerUrl }),
    },
    more: undefined,
  };
}
