/**
 * Sentences of the service in the language of the page. The service words them in English; those that are of a closed list
 * stand letter for letter in `en/told-steps.ts` and `en/told-rules.ts`, and are known again by that
 * (`tests/web/told.test.ts` asks the service for all of them).
 */
import type { WordKey } from './catalogue.js';
import { catalogue as english } from './en/index.js';
import { language } from './language.js';
import { say } from './say.js';

interface Known {
  readonly key: WordKey;
  readonly text: string;
}

interface Pattern {
  readonly key: WordKey;
  readonly like: RegExp;
}

const AREAS = ['toldSteps', 'toldRules'] as const;

let whole: ReadonlyMap<string, WordKey> | undefined;
/** The longest first: of two that a text begins with, the one that says more. */
let beginnings: readonly Known[] = [];
let patterns: readonly Pattern[] = [];

const escaped = (text: string): string => text.replace(/[.*+?^$()|[\]\\]/g, '\\$&');

/** Values that are whole numbers: anything else there makes another sentence. */
const NUMBERS = ['count', 'days', 'cm'];

const likeOf = (text: string): RegExp =>
  new RegExp(
    `^${escaped(text).replace(/\{(\w+)\}/g, (_, name: string) => `(?<${name}>${NUMBERS.includes(name) ? '\\d+' : '.+?'})`)}$`,
    'u',
  );

/** Read once, and only where a page needs them. */
function known(): ReadonlyMap<string, WordKey> {
  if (whole) return whole;
  const all = AREAS.flatMap((area) =>
    Object.entries(english[area]).map(([name, text]) => ({ key: `${area}.${name}` as WordKey, text })),
  );
  const plain = all.filter(({ text }) => !text.includes('{'));
  beginnings = [...plain].sort((one, other) => other.text.length - one.text.length);
  // Those with most words of their own first: `Find a probe of Pit A.` is also `Find {probe} of {bed}. It lies {where}.`
  patterns = all
    .filter(({ text }) => text.includes('{'))
    .sort((one, other) => other.text.length - one.text.length)
    .map(({ key, text }) => ({ key, like: likeOf(text) }));
  whole = new Map(plain.map(({ key, text }) => [text, key]));
  return whole;
}

/**
 * The sentence in the language of this device.
 *
 * @param place where to dig, in that language, in the place of the one that the sentence has
 * @returns undefined where it is none of the list, or the page is in English
 */
export function toldHere(text: string, place?: string): string | undefined {
  return language() === 'en' ? undefined : inWords(text, place);
}

/** The same in any language, English too. */
export function inWords(text: string, place?: string): string | undefined {
  const key = known().get(text);
  if (key) return say(key);
  for (const pattern of patterns) {
    const values = pattern.like.exec(text)?.groups;
    if (values) return say(pattern.key, valuesIn(values, place));
  }
  const first = beginnings.find((one) => text.startsWith(`${one.text} `));
  const rest = first && inWords(text.slice(first.text.length + 1), place);
  return first && rest !== undefined ? `${say(first.key)} ${rest}` : undefined;
}

/** Names stay as they are. */
function valuesIn(
  values: Readonly<Record<string, string>>,
  place: string | undefined,
): Record<string, string> {
  const said = Object.entries(values).map(([name, value]) => {
    if (name === 'place' && place !== undefined) return [name, place];
    return [name, name === 'where' || name === 'probe' ? (inWords(value, place) ?? value) : value];
  });
  return Object.fromEntries(said) as Record<string, string>;
}
