/** The words of all languages, with those of the likeliest first. */
import { CATALOGUES, LANGUAGE_CODES, type Language, MEANINGS, type WordMeaning } from '../languages/index.js';
import { fold } from './fold.js';

export interface Meant {
  readonly meaning: WordMeaning | 'harmless';
  /** Whether a word for hours stands before their number. */
  readonly hoursFirst: boolean;
}

export interface Words {
  /** By the folded phrase, its words parted by one blank. */
  readonly phrases: ReadonlyMap<string, Meant>;
  /** Words of the longest phrase. */
  readonly longest: number;
}

/** Before a number they only say that it is one. */
export const NUMBER_WORDS: ReadonlySet<string> = new Set([
  'no',
  'nr',
  'n',
  'num',
  'number',
  'numero',
  'nambari',
]);

/** A phrase as it is looked up. */
export const phraseOf = (text: string): string => fold(text).split(/\s+/).filter(Boolean).join(' ');

function addWords(phrases: Map<string, Meant>, language: Language): void {
  const { answers } = CATALOGUES[language];
  for (const meaning of [...MEANINGS, 'harmless'] as const)
    for (const text of answers[meaning])
      phrases.set(phraseOf(text), { meaning, hoursFirst: answers.hoursFirst });
}

function collect(languages: readonly Language[]): Words {
  const phrases = new Map<string, Meant>();
  for (const language of [...languages].reverse()) addWords(phrases, language);
  const longest = Math.max(...[...phrases.keys()].map((phrase) => phrase.split(' ').length));
  return { phrases, longest };
}

const known = new Map<string, Words>();

/**
 * Where a word means different things in two languages, the first language's meaning holds; the person's own come
 * first, then the others in their order. A tag that is no language here is passed over.
 */
export function wordsFor(tags: readonly string[]): Words {
  const bases = tags.map((tag) => tag.toLowerCase().split(/[-_]/)[0] ?? '');
  const own = LANGUAGE_CODES.filter((code) => bases.includes(code));
  const ordered = [...own, ...LANGUAGE_CODES.filter((code) => !own.includes(code))];
  const key = ordered.join(' ');
  const words = known.get(key) ?? collect(ordered);
  known.set(key, words);
  return words;
}
