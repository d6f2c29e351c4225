/** What the words and numbers of an answer say, before it is decided what the answer is. */
import { HIGHEST_NUMBER, type WordMeaning } from '../languages/index.js';
import type { Token } from './tokens.js';
import { type Meant, NUMBER_WORDS, type Words } from './words.js';

export interface Reading {
  readonly meanings: ReadonlySet<WordMeaning>;
  /** Whether there were words that no language here has. */
  readonly hasOthers: boolean;
  readonly numbers: readonly number[];
  /** The number beside a word for hours. */
  readonly hours: number | undefined;
  readonly isStrange: boolean;
  /** Whether numbers were written together, as in `1,5`. */
  readonly hasJoined: boolean;
}

const LONGEST_digits = String(HIGHEST_NUMBER).length;

/** More alarms than one message answers. */
const MOST_NUMBERS = 20;

/** Commas of Latin, Ethiopic and Arabic writing, and what stands for `and`. */
const PARTS_ALARMS = /^[,;፣፤،+&/]$/;

interface Match extends Meant {
  readonly at: number;
  readonly length: number;
}

function matchAt(tokens: readonly Token[], at: number, { phrases, longest }: Words): Match | undefined {
  for (let length = longest; length > 0; length -= 1) {
    const slice = tokens.slice(at, at + length);
    if (slice.length < length) continue;
    const meant = phrases.get(slice.map((token) => (token.type === 'word' ? token.word : '0')).join(' '));
    if (meant) return { ...meant, at, length };
  }
  return undefined;
}

/** `no 3`, `no. 3`: the number three, not a denial. */
function saysNumber(tokens: readonly Token[], at: number): boolean {
  const token = tokens[at];
  const next = tokens[at + 1];
  if (token?.type !== 'word' || next?.type !== 'number') return false;
  return NUMBER_WORDS.has(token.word) && /^[.°:#]?\s*$/.test(next.before);
}

interface Found {
  readonly matches: readonly Match[];
  readonly hasOthers: boolean;
}

function matchesIn(tokens: readonly Token[], words: Words): Found {
  const matches: Match[] = [];
  let hasOthers = false;
  for (let at = 0; at < tokens.length; at += 1) {
    if (tokens[at]?.type !== 'word' || saysNumber(tokens, at)) continue;
    const match = matchAt(tokens, at, words);
    if (match) {
      matches.push(match);
      at += match.length - 1;
    } else hasOthers = true;
  }
  return { matches, hasOthers };
}

/** Index of the number that a word for hours belongs to; undefined where none stands beside it. */
function hoursAt(tokens: readonly Token[], { at, length, hoursFirst }: Match): number | undefined {
  const sides = hoursFirst ? [at + length, at - 1] : [at - 1, at + length];
  return sides.find((index) => tokens[index]?.type === 'number');
}

/** Written to the number before without a blank: `3,5`, but also `3-5`, `1.8` and `12:30`, which are no two alarms. */
const isJoined = (tokens: readonly Token[], index: number): boolean => {
  const token = tokens[index];
  return token?.type === 'number' && tokens[index - 1]?.type === 'number' && !/\s/.test(token.before);
};

export function readingOf(tokens: readonly Token[], words: Words): Reading {
  const { matches, hasOthers } = matchesIn(tokens, words);
  const ofHours = new Set(
    matches.flatMap((match) => (match.meaning === 'hours' ? (hoursAt(tokens, match) ?? []) : [])),
  );
  const joined = tokens.filter((_, index) => isJoined(tokens, index));
  const all = tokens.flatMap((token, index) => (token.type === 'number' ? [{ ...token, index }] : []));
  const plain = all.filter(({ index }) => !ofHours.has(index));
  const isAlarm = (digits: number, value: number): boolean =>
    digits <= LONGEST_digits && value >= 1 && value <= HIGHEST_NUMBER;
  return {
    meanings: new Set(matches.flatMap(({ meaning }) => (meaning === 'harmless' ? [] : [meaning]))),
    hasOthers,
    numbers: plain.map(({ value }) => value),
    hours: all.find(({ index }) => ofHours.has(index))?.value,
    isStrange:
      ofHours.size > 1 ||
      all.length > MOST_NUMBERS ||
      plain.some(({ digits, value }) => !isAlarm(digits, value)) ||
      joined.some(({ before }) => !PARTS_ALARMS.test(before)),
    hasJoined: joined.length > 0,
  };
}
