/** What goes back to whoever answered. */
import { describe, expect, test } from 'vitest';
import {
  notUnderstoodMessage,
  parseAnswer,
  thanksMessage,
  UNCLEAR_REASONS,
  type UnderstoodAnswer,
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
      'You get no more messages. Ask your station to start them again.',
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
