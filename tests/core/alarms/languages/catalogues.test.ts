/** Every catalogue says everything that English says, with the same values, in letters that a telephone has. */
import { IntlMessageFormat } from 'intl-messageformat';
import { describe, expect, test } from 'vitest';
import { EN_MESSAGES } from '../../../../services/core/alarms/languages/catalogues/en.js';
import {
  CATALOGUES,
  LANGUAGE_CODES,
  LANGUAGES,
  languageOf,
  MEANINGS,
} from '../../../../services/core/alarms/languages/index.js';
import { knownFault } from '../../../../services/core/alarms/probe-faults.js';
import { septetsOf } from '../../../../services/core/alarms/septets.js';
import { FAULT_KINDS } from '../../../../services/core/watch/quality/state.js';

interface Node {
  readonly value?: unknown;
  readonly options?: Readonly<Record<string, { readonly value: readonly Node[] }>>;
  readonly type: number;
}

/** Names of the values in a message: every type but literal text (0) and the number of a plural (7). */
function namesIn(nodes: readonly Node[]): string[] {
  return nodes.flatMap((node) => [
    ...(node.type === 0 || node.type === 7 ? [] : [String(node.value)]),
    ...Object.values(node.options ?? {}).flatMap(({ value }) => namesIn(value)),
  ]);
}

const valuesOf = (message: string, locale: string): string[] => {
  const ast = new IntlMessageFormat(message, locale, undefined, { ignoreTag: true }).getAst();
  return [...new Set(namesIn(ast as readonly Node[]))].sort();
};

/** Where a language needs other values than English, and which it may use. */
const OTHER_VALUES: Readonly<Record<string, readonly string[]>> = {
  day: ['day', 'month', 'time'],
  'say.found': ['finding', 'kind', 'numbers'],
  'terse.from': ['cm', 'length', 'wall'],
  'terse.outside': ['cm', 'length', 'wall'],
};

const KEYS = Object.keys(EN_MESSAGES).sort() as (keyof typeof EN_MESSAGES)[];
const drafts = LANGUAGE_CODES.filter((code) => code !== 'en');

describe.each(LANGUAGE_CODES)('the catalogue of %s', (code) => {
  const { language, messages, locale, answers, letters } = CATALOGUES[code];

  test('is under its own code, with a locale that the runtime has data of', () => {
    expect(language).toBe(code);
    expect(Intl.NumberFormat.supportedLocalesOf(locale)).toEqual([locale]);
    expect(letters).not.toBe('');
  });

  test('has exactly the keys of English', () => {
    expect(Object.keys(messages).sort()).toEqual(KEYS);
  });

  test('says something under each, with the values of English', () => {
    for (const key of KEYS) {
      const values = valuesOf(messages[key], locale);
      expect(messages[key].trim()).toBe(messages[key]);
      expect(messages[key]).not.toBe('');
      const allowed = OTHER_VALUES[key];
      if (allowed) expect([key, allowed]).toEqual([key, expect.arrayContaining(values)]);
      else expect([key, values]).toEqual([key, valuesOf(EN_MESSAGES[key], 'en')]);
    }
  });

  test('has no apostrophe that would quote a brace, and no number with groups', () => {
    expect(KEYS.filter((key) => /'[{}]|#/.test(messages[key]))).toEqual([]);
  });

  test.each(MEANINGS)('has words for %s', (meaning) => {
    expect(answers[meaning].length).toBeGreaterThan(0);
  });
});

test.each(LANGUAGE_CODES.filter((code) => code !== 'am'))('%s is in the GSM alphabet', (code) => {
  const { messages } = CATALOGUES[code];
  const sent = KEYS.filter((key) => !key.startsWith('page.'));
  expect(sent.filter((key) => septetsOf(messages[key]) === undefined)).toEqual([]);
});

test.each(drafts)('%s differs from English wherever there are words', (code) => {
  const same = KEYS.filter((key) => CATALOGUES[code].messages[key] === EN_MESSAGES[key]);
  expect(
    same.filter((key) => !/^(line.raised|place.list|terse|length|say.ok|subject.raised|join)/.test(key)),
  ).toEqual([]);
});

test('faults of probes are those that have English words', () => {
  const named = KEYS.flatMap((key) => (/^fault\.(?!other)/.test(key) ? [key.slice(6)] : []));
  expect(named.filter((fault) => knownFault(fault) === undefined)).toEqual([]);
  const watched = FAULT_KINDS.filter((kind) => kind !== 'silent');
  expect(named).toEqual(
    expect.arrayContaining([...watched, 'drift', 'humidity-drift', 'calibration-due', 'pulled', 'misplaced']),
  );
});

describe('the languages', () => {
  test('only English was read by those who speak it', () => {
    expect(LANGUAGES.map(({ language, nativeReviewed }) => [language, nativeReviewed])).toEqual([
      ['en', true],
      ...drafts.map((code) => [code, false]),
    ]);
    for (const { nativeReviewed, note } of LANGUAGES)
      expect(note).toBe(nativeReviewed ? 'read by its authors' : 'draft: no native speaker has read it');
  });

  test.each([
    ['fr-CM', 'fr'],
    ['sw-KE', 'sw'],
    ['AM', 'am'],
    ['pt_MZ', 'pt'],
    ['ny', 'ny'],
  ])('%s falls back to %s', (tag, language) => {
    expect(languageOf(tag)).toBe(language);
  });

  test.each(['', 'de', 'english', 'toString', '-fr', ' fr', 'f'])('%j is refused by name', (tag) => {
    expect(() => languageOf(tag)).toThrow(
      expect.objectContaining({
        code: 'OUT_OF_DOMAIN',
        message: `language must be one of en, fr, pt, sw, ha, ny, am, or such a one with a region as fr-CM, got ${JSON.stringify(tag)}`,
      }),
    );
  });
});
