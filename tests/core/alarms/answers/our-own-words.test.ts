/** Whatever our own messages tell people to answer is understood, and nothing that they send breaks the reader. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseAnswer, QUIET_h } from '../../../../services/core/alarms/answers/index.js';
import { phraseOf } from '../../../../services/core/alarms/answers/words.js';
import {
  allExample,
  bundleMessage,
  CATALOGUES,
  drillMessage,
  findingFor,
  foundExample,
  LANGUAGE_CODES,
  laterExample,
  MEANINGS,
  okExample,
  shortMessage,
  summaryMessage,
} from '../../../../services/core/alarms/languages/index.js';
import { ACTIONS, ALARM_KINDS } from '../../../../services/core/model/alarm.js';
import { FINDINGS } from '../../../../services/core/model/inspection.js';
import { PIT } from '../an-alarm.js';

const numbers = fc.uniqueArray(fc.integer({ min: 1, max: 9999 }), { minLength: 0, maxLength: 4 });
const hints = fc.subarray([...LANGUAGE_CODES, 'xx', '']);
const hours = fc.integer({ min: QUIET_h.low, max: QUIET_h.high });
const RUNS = { seed: 7, numRuns: 200 };

describe.each(LANGUAGE_CODES)('an example in %s', (language) => {
  const catalogue = CATALOGUES[language];

  test('of having seen', () => {
    fc.assert(
      fc.property(numbers, hints, (some, tags) => {
        expect(parseAnswer(okExample(catalogue, some), tags)).toEqual({ kind: 'seen', numbers: some });
      }),
      RUNS,
    );
  });

  test('of having seen all, and every word for all', () => {
    const answer = { kind: 'seen', numbers: [], all: true };
    expect(parseAnswer(allExample(catalogue), [language])).toEqual(answer);
    expect(parseAnswer(allExample(catalogue))).toEqual(answer);
    for (const word of catalogue.answers.all)
      for (const text of [word.toUpperCase(), phraseOf(word)])
        expect([text, parseAnswer(`ok ${text}`, [language])]).toEqual([text, answer]);
  });

  test.each(FINDINGS)('of having found %s', (finding) => {
    fc.assert(
      fc.property(numbers, hints, (some, tags) => {
        const answer = { kind: 'found', findings: [finding], repacked: false, numbers: some };
        const text = foundExample(catalogue, finding, some);
        expect(parseAnswer(text, tags)).toEqual(answer);
        expect(parseAnswer(text.toLowerCase(), tags)).toEqual(answer);
      }),
      RUNS,
    );
  });

  test('of asking for quiet', () => {
    fc.assert(
      fc.property(numbers, hours, hints, (some, hour, tags) => {
        const answer = { kind: 'quiet', hours: hour, numbers: some };
        expect(parseAnswer(laterExample(catalogue, some, hour), tags)).toEqual(answer);
      }),
      RUNS,
    );
  });

  test.each(ALARM_KINDS)('stands as it is in the message about %s', (kind) => {
    for (const action of ACTIONS) {
      const told = { kind, action, subject: '', evidence: {}, place: null };
      const options = { language, number: 41, mayAnswer: true };
      const { text } = shortMessage('raised', told, PIT, options);
      expect(text).toContain(okExample(catalogue, [41]));
      const finding = findingFor(kind);
      if (finding) expect(text).toContain(foundExample(catalogue, finding, [41]));
    }
  });

  test('stands as it is in a bundle and in a drill', () => {
    const items = [3, 5].map((number) => ({ bed: PIT, episode: { kind: 'damp' as const }, number }));
    const options = { language, mayAnswer: true };
    expect(bundleMessage(items, options).text).toContain(okExample(catalogue, [3, 5]));
    const storm = { alarms: 9, beds: 5, first: [] };
    expect(summaryMessage(storm, options).text).toContain(allExample(catalogue));
    expect(drillMessage(PIT, { ...options, number: 3 }).text).toContain(okExample(catalogue, [3]));
  });

  test.each(FINDINGS)('every word for %s is understood, with accents or without', (finding) => {
    for (const word of catalogue.answers[finding])
      for (const text of [word, word.toUpperCase(), word.normalize('NFD'), phraseOf(word)])
        expect([text, parseAnswer(`${text} 3`, [language])]).toEqual([
          text,
          { kind: 'found', findings: [finding], repacked: false, numbers: [3] },
        ]);
  });

  test('every word for having seen, found and repacked is understood', () => {
    for (const word of catalogue.answers.seen)
      expect([word, parseAnswer(`${word} 3`, [language])]).toEqual([word, { kind: 'seen', numbers: [3] }]);
    const [rot] = catalogue.answers.rot;
    for (const word of catalogue.answers.found)
      expect([word, parseAnswer(`xyz ${word} ${rot} 3`, [language])]).toEqual([
        word,
        { kind: 'found', findings: ['rot'], repacked: false, numbers: [3] },
      ]);
    for (const word of catalogue.answers.repacked)
      expect([word, parseAnswer(`${rot}, ${word} 3`, [language])]).toEqual([
        word,
        { kind: 'found', findings: ['rot'], repacked: true, numbers: [3] },
      ]);
  });

  test('every word for quiet, hours and stop is understood', () => {
    const { quiet, hours: words, hoursFirst, stop } = catalogue.answers;
    for (const later of quiet)
      for (const hour of words)
        expect([
          later,
          hour,
          parseAnswer(`${later} 3 ${hoursFirst ? `${hour} 6` : `6 ${hour}`}`, [language]),
        ]).toEqual([later, hour, { kind: 'quiet', hours: 6, numbers: [3] }]);
    for (const word of stop) expect(parseAnswer(word, [language])).toEqual({ kind: 'stop' });
  });

  test.each(catalogue.answers.not)('with %s nothing is taken', (word) => {
    const [rot = ''] = catalogue.answers.rot;
    expect(parseAnswer(`${word} ${rot} 3`, [language])).toEqual({ kind: 'unclear', reason: 'negated' });
  });
});

test('no word means one thing in one language and another in the next, but for those that are known', () => {
  const meant = new Map<string, Set<string>>();
  for (const code of LANGUAGE_CODES)
    for (const meaning of [...MEANINGS, 'harmless'] as const)
      for (const word of CATALOGUES[code].answers[meaning])
        meant.set(phraseOf(word), (meant.get(phraseOf(word)) ?? new Set()).add(meaning));
  const shared = [...meant].filter(([, meanings]) => meanings.size > 1).map(([word]) => word);
  expect(shared).toEqual(['no', 'ola']);
});

test('nothing that is sent throws, and what is taken is in bounds', () => {
  const words = LANGUAGE_CODES.flatMap((code) =>
    MEANINGS.flatMap((meaning) => [...CATALOGUES[code].answers[meaning]]),
  );
  const pieces = fc.oneof(
    fc.constantFrom(...words),
    fc.nat().map(String),
    fc.constantFrom(' ', ',', '-', '፻', '፼', '٣', '𝟛', '\u0300', '\ud800', '½', '😀', "'"),
    fc.string({ unit: 'binary', maxLength: 6 }),
  );
  const texts = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 600 }),
    fc.array(pieces, { maxLength: 12 }).map((some) => some.join(' ')),
    fc.array(pieces, { maxLength: 12 }).map((some) => some.join('')),
  );
  fc.assert(
    fc.property(texts, hints, (text, tags) => {
      const answer = parseAnswer(text, tags);
      if (answer.kind === 'unclear' || answer.kind === 'stop') return;
      for (const number of answer.numbers)
        expect(Number.isInteger(number) && number >= 1 && number <= 9999).toBe(true);
      expect(new Set(answer.numbers).size).toBe(answer.numbers.length);
      if (answer.kind === 'quiet')
        expect(answer.hours >= QUIET_h.low && answer.hours <= QUIET_h.high).toBe(true);
      if (answer.kind === 'found') {
        expect(answer.findings.length).toBeGreaterThan(0);
        if (answer.findings.includes('nothing')) expect(answer.findings).toEqual(['nothing']);
      }
    }),
    { seed: 11, numRuns: 3000 },
  );
});
