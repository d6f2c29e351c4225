/** Short questions at a terminal, for what the probes do not answer. */
import { BAD_ROOTS } from '../../core/model/readiness.js';
import { DAY_ms, formatTime, parseTime } from '../../core/model/time.js';
import type { ReadinessAnswer } from '../../http/index.js';
import type { Say } from '../say.js';
import { type Ask, askUntil } from '../terminal.js';
import { type RawAnswers, YES_OR_NO } from './ready-flags.js';

type Item = ReadinessAnswer['items'][number];

interface Told {
  readonly by: string;
  readonly answers: RawAnswers;
}

/** @returns undefined where nobody gave a name or an answer */
export async function questionsAnswered(
  { items, at }: ReadinessAnswer,
  ask: Ask,
  named: string | undefined,
  say: Say,
): Promise<Told | undefined> {
  const by = named ?? (await ask('Who answers? (Enter to leave it at the list) ')).trim();
  if (by === '') return undefined;
  say('Enter leaves a question open.');
  const answers: Record<string, unknown> = {};
  for (const item of items.filter(isOpen))
    Object.assign(answers, await untilUnderstood(item, Date.parse(at), by, ask, say));
  return Object.keys(answers).length === 0 ? undefined : { by, answers };
}

const isOpen = ({ answeredBy, state }: Item): boolean => answeredBy === 'hand' && state !== 'met';

async function untilUnderstood(item: Item, at: number, by: string, ask: Ask, say: Say): Promise<RawAnswers> {
  const asked = questionOf(item);
  if (!asked) return {};
  const question = `${item.question} [${asked.expected}] `;
  const read = (text: string) => asked.read(text, at, by);
  return (await askUntil(question, asked.expected, read, { ask, say })) ?? {};
}

interface Question {
  readonly expected: string;
  readonly read: (text: string, at: number, by: string) => RawAnswers | undefined;
}

function questionOf({ id }: Item): Question | undefined {
  const key = YES_OR_NO[id];
  if (key !== undefined)
    return { expected: 'y or n', read: (text) => ofYes(text, (said) => ({ [key]: said })) };
  return QUESTIONS[id];
}

function ofYes(text: string, make: (said: boolean) => RawAnswers): RawAnswers | undefined {
  if (/^y(es)?$/i.test(text)) return make(true);
  return /^no?$/i.test(text) ? make(false) : undefined;
}

const number = (text: string, low: number, high: number): number | undefined => {
  const value = Number(text);
  return value >= low && value <= high ? value : undefined;
};

/** Sieving and weighing are many numbers: flags of this command, or `sandlarder sand --bed`. */
const QUESTIONS: Readonly<Partial<Record<string, Question>>> = {
  curing: { expected: 'days, or days at °C and %RH such as 5 30 90', read: curing },
  'roots-sorted': {
    expected: 'y where all four kinds were, or n',
    read: (text) => ofYes(text, (said) => ({ rootsSorted: said ? [...BAD_ROOTS] : [] })),
  },
  'pit-open': {
    expected: 'days',
    read: (text) => {
      const days = number(text, 0, 3650);
      return days === undefined ? undefined : { pitOpen_days: days };
    },
  },
  'sand-temperature': {
    expected: '°C a hand’s breadth deep',
    read: (text) => {
      const sand_C = number(text, -20, 80);
      return sand_C === undefined ? undefined : { sandTemperature_C: sand_C };
    },
  },
  'next-look': { expected: 'in how many days, or a date such as 2026-06-20', read: nextLook },
};

function curing(text: string): RawAnswers | undefined {
  const [days, temperature_C, humidity_RH, ...more] = text.split(/[ ,;]+/).map(Number);
  const isIn = (value: number | undefined, low: number, high: number): boolean =>
    value === undefined || (value >= low && value <= high);
  if (days === undefined || more.length > 0) return undefined;
  if (!(isIn(days, 0, 365) && isIn(temperature_C, -10, 60) && isIn(humidity_RH, 0, 100))) return undefined;
  return {
    curing: {
      days,
      ...(temperature_C !== undefined && { temperature_C }),
      ...(humidity_RH !== undefined && { humidity_RH }),
    },
  };
}

/** By whoever answers; of a date the morning counts. */
function nextLook(text: string, at: number, by: string): RawAnswers | undefined {
  const days = number(text, 0, 366);
  const time = days === undefined ? parseTime(`${text}T06:00:00Z`) : at + days * DAY_ms;
  return time === undefined ? undefined : { nextLook: { by, at: formatTime(time) } };
}
