/**
 * What every language of the page must hold: words of English alone, saying the same values. What is not translated yet is
 * said in English; of the languages in `WHOLE` nothing is.
 */
import { readdirSync } from 'node:fs';
import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, test } from 'vitest';
import { LANGUAGE_CODES } from '../../services/core/model/languages.js';
import { catalogue as english } from '../../services/web/words/en/index.js';

const WORDS = new URL('../../services/web/words/', import.meta.url);

type Texts = Readonly<Record<string, Readonly<Record<string, string>>>>;

const languages = readdirSync(WORDS, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

const textsOf = async (language: string): Promise<Texts> =>
  ((await import(new URL(`${language}/index.ts`, WORDS).href)) as { catalogue: Texts }).catalogue;

/** Languages in which every word has been written. */
const WHOLE = ['am', 'fr', 'ha', 'ny', 'pt', 'sw'];

/** Words that the files of a language have themselves: of others `index.ts` gives those of English. */
async function ownKeys(language: string): Promise<string[]> {
  const files = readdirSync(new URL(`${language}/`, WORDS)).filter((name) => name !== 'index.ts');
  const areas = await Promise.all(
    files.map((name) => import(new URL(`${language}/${name}`, WORDS).href) as Promise<Texts>),
  );
  return areas.flatMap((area) => keysOf({ ...area }));
}

const keysOf = (texts: Texts): string[] =>
  Object.entries(texts).flatMap(([area, words]) => Object.keys(words).map((key) => `${area}.${key}`));

/** A part of a parsed ICU message: a value, or a choice with parts in each of its branches. */
interface Part {
  readonly value?: string;
  readonly type: number;
  readonly options?: Readonly<Record<string, { readonly value: readonly Part[] }>>;
}

/** Type of plain text among parts. */
const LITERAL = 0;

const valuesOf = (parts: readonly Part[]): string[] =>
  parts.flatMap(({ type, value, options = {} }) => [
    ...(type !== LITERAL && value !== undefined ? [value] : []),
    ...Object.values(options).flatMap((branch) => valuesOf(branch.value)),
  ]);

const namesIn = (text: string, language: string): string[] => {
  const format = new IntlMessageFormat(text, language, undefined, { ignoreTag: true });
  return [...new Set(valuesOf(format.getAst() as readonly Part[]))].sort();
};

test('the page is in languages that messages are in', () => {
  expect(languages.filter((name) => !(LANGUAGE_CODES as readonly string[]).includes(name))).toEqual([]);
});

describe.each(languages)('%s', (language) => {
  test('has no word but those of English, and each of them where it is whole', async () => {
    const own = await ownKeys(language);
    const known = keysOf(english);
    expect(own.filter((key) => !known.includes(key))).toEqual([]);
    if (WHOLE.includes(language)) expect(known.filter((key) => !own.includes(key))).toEqual([]);
  });

  test('says the same values in each, and nothing empty', async () => {
    const texts = await textsOf(language);
    const wrong = Object.entries(english as Texts).flatMap(([area, words]) =>
      Object.entries(words).flatMap(([key, text]) => {
        const other = texts[area]?.[key] ?? '';
        const same = other.trim() !== '' && namesIn(other, language).join() === namesIn(text, 'en').join();
        return same ? [] : [`${area}.${key}: ${namesIn(text, 'en')} is said, got ${JSON.stringify(other)}`];
      }),
    );
    expect(wrong).toEqual([]);
  });
});
