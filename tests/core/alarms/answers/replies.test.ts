/** What goes back to whoever answered. */
import { describe, expect, test } from 'vitest';
import {
  nothingOpenMessage,
  notUnderstoodMessage,
  parseAnswer,
  thanksMessage,
  UNCLEAR_REASONS,
  type UnderstoodAnswer,
  whichMessage,
} from '../../../../services/core/alarms/answers/index.js';
import {
  CATALOGUES,
  foundExample,
  LANGUAGE_CODES,
  laterExample,
} from '../../../../services/core/alarms/languages/index.js';

const ANSWERS: readonly UnderstoodAnswer[] = [
  { kind: 'seen', numbers: [3] },
  { kind: 'found', findings: ['rot', 'damp', 'sprouts', 'weevils'], repacked: false, numbers: [3] },
  { kind: 'found', findings: ['nothing'], repacked: true, numbers: [3] },
  { kind: 'quiet', hours: 72, numbers: [] },
  { kind: 'stop' },
];

describe('thanks', () => {
  test('say what was written down, and for which beds', () => {
    expect(ANSWERS.map((answer) => thanksMessage(answer, ['Pit A', 'Box 2', 'Pit A'], 'en').text)).toEqual([
      'Thanks. Noted as seen: Pit A, Box 2.',
      'Thanks. Written down for Pit A, Box 2: ROT, DAMP, SPROUTS, WEEVILS.',
      'Thanks. Written down for Pit A, Box 2: NOTHING; repacked.',
      'Thanks. Pit A, Box 2: quiet for 72 hours.',
      'You get no more messages. Answer OK to start them again.',
    ]);
    expect(thanksMessage({ kind: 'quiet', hours: 1, numbers: [] }, ['Pit A'], 'en').text).toMatch(
      / 1 hour\.$/,
    );
  });

  test.each(LANGUAGE_CODES)('in %s fit, name the bed and leave nothing open', (language) => {
    for (const answer of ANSWERS) {
      const { text, parts, alphabet } = thanksMessage(answer, ['Mbale pit 12'], language);
      expect(text).not.toMatch(/[{}#]|undefined/);
      expect([text, alphabet, parts <= (language === 'am' ? 2 : 1)]).toEqual([
        text,
        language === 'am' ? 'ucs2' : 'gsm',
        true,
      ]);
      if (answer.kind !== 'stop') expect(text).toContain('Mbale pit 12');
    }
  });
});

describe('which one', () => {
  const TWO = [
    { bed: 'Pit A', number: 3 },
    { bed: 'Box\n2', number: 5 },
  ];
  const [seen, found, , quiet] = ANSWERS as [never, never, never, never];

  test('names what is open, and shows how to answer in the way that was tried', () => {
    expect(whichMessage(seen, TWO, 'en').text).toBe('Which one? 3 Pit A, 5 Box 2. Answer OK 3 or OK ALL.');
    expect(whichMessage(found, TWO, 'en').text).toBe('Which one? 3 Pit A, 5 Box 2. Answer FOUND ROT 3.');
    expect(whichMessage(quiet, TWO, 'en').text).toBe('Which one? 3 Pit A, 5 Box 2. Answer LATER 3 72h.');
  });

  test('of one that is open names it alone', () => {
    expect(whichMessage(seen, TWO.slice(1), 'en').text).toBe('Which one? 5 Box 2. Answer OK 5.');
  });

  test.each(LANGUAGE_CODES)('in %s stays in the alphabet, and so does that nothing is open', (language) => {
    const alphabet = language === 'am' ? 'ucs2' : 'gsm';
    for (const { text, ...rest } of [whichMessage(seen, TWO, language), nothingOpenMessage(language)]) {
      expect(rest).toEqual({ alphabet, parts: 1 });
      expect(text).not.toMatch(/[{}#]|undefined/);
    }
  });

  test('of a hundred and thanks for a hundred name a few and count the others', () => {
    const many = Array.from({ length: 100 }, (_, at) => ({ bed: `Pit ${at}`, number: at + 1 }));
    expect(whichMessage(seen, many, 'en').text).toMatch(/ 6 Pit 5, \+94\. Answer OK 1 or OK ALL\.$/);
    const beds = many.map(({ bed }) => bed);
    expect(thanksMessage(seen, beds, 'en').text).toMatch(/Pit 5, \+94\.$/);
  });
});

describe('not understood', () => {
  test('says how to answer', () => {
    expect(notUnderstoodMessage('negated', { language: 'en', number: 3 }).text).toBe(
      'Not understood. Answer OK 3, FOUND ROT 3 or LATER 3 6h.',
    );
    expect(notUnderstoodMessage('no-hours', { language: 'en', number: 3 }).text).toBe(
      'For how many hours? From 1 to 72. Answer LATER 3 6h.',
    );
    expect(notUnderstoodMessage('no-finding', { language: 'en' }).text).toBe(
      'What did you find? Answer FOUND ROT or FOUND NOTHING.',
    );
  });

  test.each(LANGUAGE_CODES)('in %s fits, with examples that are understood', (language) => {
    const catalogue = CATALOGUES[language];
    for (const reason of UNCLEAR_REASONS) {
      const { text, parts } = notUnderstoodMessage(reason, { language, number: 999 });
      expect([text, parts <= (language === 'am' ? 2 : 1)]).toEqual([text, true]);
      const examples = [
        foundExample(catalogue, 'rot', [999]),
        foundExample(catalogue, 'nothing', [999]),
        laterExample(catalogue, [999], 6),
      ].filter((example) => text.includes(example));
      expect(examples.length).toBeGreaterThan(0);
      for (const example of examples) expect(parseAnswer(example)).toMatchObject({ numbers: [999] });
    }
  });

  test('in a language that there is not is refused', () => {
    expect(() => notUnderstoodMessage('empty', { language: 'xx' })).toThrow(/must be one of en, fr/);
    expect(() => thanksMessage({ kind: 'stop' }, [], 'xx')).toThrow(/must be one of en, fr/);
  });
});
