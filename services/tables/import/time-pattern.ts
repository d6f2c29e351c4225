/**
 * Times by a pattern of letters, as luxon has them. Letters that follow the language of a machine are refused: day and
 * month are in the order that the pattern states.
 */
import { DateTime } from 'luxon';

/** A date and time as the text has it: an instant where the text says its offset, else what a clock showed. */
export interface ReadTime {
  readonly at: number;
  readonly isInstant: boolean;
}

export type PatternReader = (text: string) => ReadTime | undefined;

/** Letters that say the same in every language. */
const LETTERS: readonly string[] = [
  ...['yyyy', 'yy', 'MM', 'M', 'MMM', 'MMMM', 'dd', 'd', 'HH', 'H', 'hh', 'h', 'mm', 'm', 'ss', 's', 'SSS'],
  ...['S', 'u', 'a', 'EEE', 'EEEE', 'o', 'ooo', 'Z', 'ZZ', 'ZZZ'],
];
const OFFSETS: readonly string[] = ['Z', 'ZZ', 'ZZZ'];

interface Part {
  readonly letters?: string;
  readonly literal?: string;
}

/** Runs of one letter, and what stands between them; a text in apostrophes stands for itself. */
function partsOf(pattern: string): Part[] {
  return [...pattern.matchAll(/'([^']*)'|(([A-Za-z])\3*)|([^A-Za-z']+)/g)].map(
    ([, quoted, letters, , other]) =>
      letters === undefined ? { literal: quoted ?? other ?? '' } : { letters },
  );
}

const hasOffset = (pattern: string): boolean =>
  partsOf(pattern).some(({ letters }) => letters !== undefined && OFFSETS.includes(letters));

/** Times that a pattern must tell from each other: morning from evening, day from month, and each from the year. */
const TOLD_APART = [
  ...['2001-02-03T04:56Z', '2001-02-03T16:56Z'],
  ...['2012-10-11T12:05Z', '2012-11-10T00:05Z'],
];

/** What is wrong with a pattern, and whether it is its zone that is missing; undefined where nothing is. */
export function patternProblem(
  pattern: string,
  hasZone: boolean,
): { readonly of: 'format' | 'zone'; readonly message: string } | undefined {
  const unknown = partsOf(pattern).find(({ letters }) => letters !== undefined && !LETTERS.includes(letters));
  if (unknown)
    return {
      of: 'format',
      message: `expected iso, epoch-s, epoch-ms, or a pattern of ${LETTERS.join(' ')}, got ${JSON.stringify(unknown.letters)} in ${JSON.stringify(pattern)}`,
    };
  const lost = TOLD_APART.map((text) => DateTime.fromISO(text, { zone: 'utc' })).find((time) => {
    const text = time.toFormat(pattern, { locale: 'en-US' });
    return luxonReader(pattern)(text)?.at !== time.toMillis();
  });
  if (lost)
    return {
      of: 'format',
      message: `expected a pattern that says year, month, day, hour and minute, got ${JSON.stringify(pattern)}, by which ${lost.toFormat('yyyy-MM-dd HH:mm')} is not itself`,
    };
  if (!hasZone && !hasOffset(pattern))
    return { of: 'zone', message: 'expected a time zone such as Africa/Lusaka for a pattern without offset' };
  return undefined;
}

/** @param pattern one without a problem */
export const patternReader = (pattern: string): PatternReader =>
  numericReader(pattern) ?? luxonReader(pattern);

/** By luxon, which reads every pattern, in some 15 µs. */
export function luxonReader(pattern: string): PatternReader {
  const parser = DateTime.buildFormatParser(pattern, { locale: 'en-US' });
  const isInstant = hasOffset(pattern);
  return (text) => {
    const time = DateTime.fromFormatParser(text, parser, { zone: 'utc', locale: 'en-US' });
    return time.isValid ? { at: time.toMillis(), isInstant } : undefined;
  };
}

const DIGITS: Readonly<Record<string, string>> = {
  ...{ yyyy: '\\d{4}', MM: '\\d{2}', M: '\\d{1,2}', dd: '\\d{2}', d: '\\d{1,2}', HH: '\\d{2}' },
  ...{ H: '\\d{1,2}', mm: '\\d{2}', m: '\\d{1,2}', ss: '\\d{2}', s: '\\d{1,2}', SSS: '\\d{3}' },
};

const escaped = (literal: string): string => literal.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Of patterns of plain numbers, which most loggers write, the same as luxon in a tenth of the time. */
export function numericReader(pattern: string): PatternReader | undefined {
  const parts = partsOf(pattern);
  const letters = parts.flatMap((part) => part.letters ?? []);
  const plain =
    letters.every((run) => run in DIGITS) && new Set(letters.map((run) => run[0])).size === letters.length;
  if (!plain || parts.some(({ literal }) => literal !== undefined && /\p{L}/u.test(literal)))
    return undefined;
  const source = parts.map(({ letters: run, literal }) =>
    run === undefined ? escaped(literal ?? '') : `(${DIGITS[run]})`,
  );
  const expression = new RegExp(`^${source.join('')}$`);
  const place = (letter: string): number => letters.findIndex((run) => run[0] === letter) + 1;
  const places = ['y', 'M', 'd', 'H', 'm', 's', 'S'].map(place);
  return (text) => {
    const match = expression.exec(text);
    return match ? clockTime(match, places) : undefined;
  };
}

const ADDED_DAY = 24;

/** Midnight may be written as hour 24 of the day before. */
function clockTime(match: RegExpExecArray, places: readonly number[]): ReadTime | undefined {
  const [year, month, day, hour, minute, second, ms] = places.map((at) => (at === 0 ? 0 : Number(match[at])));
  const numbers = [year, month, day, hour, minute, second, ms] as Numbers;
  if (!isTime(numbers)) return undefined;
  const [y, M, ...rest] = numbers;
  const at = Date.UTC(y, M - 1, ...rest);
  return y < 100 ? undefined : { at, isInstant: false };
}

type Numbers = [number, number, number, number, number, number, number];

function isTime([year, month, day, hour, minute, second, ms]: Numbers): boolean {
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate()))
    return false;
  if (!(minute <= 59 && second <= 59)) return false;
  return hour < ADDED_DAY || (hour === ADDED_DAY && minute === 0 && second === 0 && ms === 0);
}
