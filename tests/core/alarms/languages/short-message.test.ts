/** The short message: what is said first when there is room, and what is left out when there is not. */
import { describe, expect, test } from 'vitest';
import { shortMessage } from '../../../../services/core/alarms/languages/index.js';
import { anAlarm, at, PIT } from '../an-alarm.js';

const EN = Object.freeze({ language: 'en', number: 3, mayAnswer: true });
const NEAR = { x: 45, y: 20, depth: 40, radius: 15 };

describe('English', () => {
  test('says bed, what is wrong, what to do, where to dig and how to answer', () => {
    expect(shortMessage('raised', anAlarm({ place: NEAR }), PIT, EN)).toEqual({
      text:
        'Pit A: sand 1.8 C too warm. Open and unpack today. Dig: deep down (about a forearm), a span from NW side, a ' +
        'forearm from NW end. Answer OK 3 or FOUND ROT 3.',
      alphabet: 'gsm',
      parts: 1,
    });
  });

  test('where nobody can answer, there is room for the depth', () => {
    expect(shortMessage('raised', anAlarm({ place: NEAR }), PIT, { language: 'en' }).text).toBe(
      'Pit A: sand 1.8 C too warm. Open and unpack today. Dig: deep down (about a forearm), a span from NW side, a ' +
        'forearm from NW end.',
    );
  });

  test.each([
    ['second', 'Pit A: sand 1.8 C too warm (2nd place). Open and unpack today.'],
    ['third', 'Pit A: sand 1.8 C too warm (3rd place). Open and unpack today.'],
    ['fourth', 'Pit A: sand 1.8 C too warm (other place). Open and unpack today.'],
  ])('of a %s source it says that it is another place', (subject, text) => {
    expect(shortMessage('raised', anAlarm({ subject, place: null }), PIT, { language: 'en' }).text).toBe(
      text,
    );
  });

  test('without a short number the answer has none', () => {
    const { text } = shortMessage('raised', anAlarm({ place: null }), PIT, {
      language: 'en',
      mayAnswer: true,
    });
    expect(text).toMatch(/ Answer OK or FOUND ROT\.$/);
  });

  test('a probe is not found to be anything', () => {
    const fault = anAlarm({
      kind: 'probe-fault',
      action: 'service',
      subject: 'p03',
      evidence: { fault: 'humidity-drift' },
      place: null,
    });
    expect(shortMessage('raised', fault, PIT, EN).text).toBe(
      'Pit A: probe p03 shows humidity that drifts. Feel the sand beside it, then compare it. Answer OK 3.',
    );
  });

  test('handling that nobody told is asked about, with its day', () => {
    const asked = anAlarm({
      kind: 'inspection-due',
      action: 'check',
      evidence: { because: 'asked', since: '2026-05-24T15:00:00Z' },
      place: null,
    });
    expect(shortMessage('raised', asked, PIT, EN).text).toBe(
      'Pit A: seems to have been opened about 24 May, nothing is written down. Write down what was done. Answer OK ' +
        '3 or FOUND NOTHING 3.',
    );
  });

  test('a look says what no probe sees, where there is room', () => {
    const look = anAlarm({
      kind: 'inspection-due',
      action: 'check',
      evidence: { because: 'two-weeks' },
      place: null,
    });
    expect(shortMessage('raised', look, PIT, { language: 'en' }).text).toContain('rots 15 cm away.');
  });

  test.each([
    [
      'refined',
      'Pit A: dig here instead: deep down (about a forearm), a span from NW side, a forearm from NW end. Answer OK 3 or FOUND ROT 3.',
    ],
    [
      'cleared',
      'Pit A: over: sand 1.8 C too warm. Readings are normal. Not opened yet? Look at your next visit.',
    ],
    [
      'withdrawn',
      'Pit A: taken back: sand 1.8 C too warm. Late readings speak against it. Keep up the two-weekly look.',
    ],
  ] as const)('%s', (event, text) => {
    expect(shortMessage(event, anAlarm({ place: NEAR }), PIT, EN).text).toBe(text);
  });

  test('sprouts are not over because readings are normal', () => {
    const sprouting = anAlarm({ kind: 'sprouting', action: 'check', place: null });
    expect(shortMessage('cleared', sprouting, PIT, EN).text).toBe('Pit A: over: roots may be sprouting.');
  });
});

describe('other languages', () => {
  test.each([
    ['fr', /^Pit A: sable trop chaud de 1,8 C\. .*bord NO.* Répondre OK 3/],
    ['pt-MZ', /^Pit A: areia quente demais 1,8 C\. .*lado NO.* Responda OK 3/],
    ['sw-KE', /^Pit A: mchanga una joto mno \+1\.8 C\. .*kask-magh.* Jibu OK 3/],
    ['ha', /^Pit A: yashi ya yi zafi \+1\.8 C\. .*arewa-yamma.* Amsa OK 3/],
    ['ny', /^Pit A: mchenga watentha \+1\.8 C\. .*kump-madz.* Yankhani OK 3/],
    ['am', /^Pit A፦ አሸዋው በ1\.8 C ሞቋል። .*ሰ-ምዕራብ.* OK 3/],
  ])('%s', (language, text) => {
    expect(shortMessage('raised', anAlarm({ place: NEAR }), PIT, { ...EN, language }).text).toMatch(text);
  });

  test('Amharic days are those of the Ethiopian calendar', () => {
    const evidence = { because: 'asked', since: '2026-05-24T15:00:00Z' };
    const asked = anAlarm({ kind: 'inspection-due', action: 'check', evidence, place: null });
    expect(shortMessage('raised', asked, PIT, { language: 'am' }).text).toContain('ግንቦት 16');
  });
});

describe('where there is little room', () => {
  const lines = (name: string, style?: 'centimetres') =>
    shortMessage('raised', anAlarm({ place: NEAR }), { ...PIT, name }, { ...EN, placeStyle: style });

  test('the answer goes first, then arms, then words', () => {
    const tails = [
      'Pit',
      'Pit behind the barn A',
      'Pit behind the long barn, no 1',
      'P'.repeat(45),
      'P'.repeat(54),
    ].map((name) => lines(name).text.split(' Dig: ').at(-1));
    expect(tails).toEqual([
      'deep down (about a forearm), a span from NW side, a forearm from NW end. Answer OK 3 or FOUND ROT 3.',
      'deep down (about a forearm), a span from NW side, a forearm from NW end. Answer OK 3.',
      'deep down, a span from NW side, a forearm from NW end. Answer OK 3.',
      'deep down, 20 cm from NW side, 45 cm from NW end. Answer OK 3.',
      '40 cm down, NW side 20 cm, NW end 45 cm. Answer OK 3.',
    ]);
  });

  test('a person with a tape is told centimetres', () => {
    expect(lines('Pit', 'centimetres').text).toContain('20 cm from NW side, 45 cm from NW end');
  });

  test('a long name makes a longer text, never a cut one', () => {
    const name = 'a'.repeat(200);
    const message = lines(name);
    expect(message.text.startsWith(`${name}: `)).toBe(true);
    expect(message.text).toMatch(/Answer OK 3 or FOUND ROT 3\.$|Answer OK 3\.$/);
    expect(message.parts).toBe(2 + Number(message.text.length > 306));
  });

  test('a name outside the alphabet makes it UCS-2, in two parts', () => {
    expect(lines('Šumava pit')).toMatchObject({ alphabet: 'ucs2', parts: 2 });
    expect(lines('Šumava pit').text).toMatch(/^Šumava pit: /);
  });

  test('a name in letters and marks is composed, and stays in the alphabet', () => {
    expect(lines('Pre\u0301')).toMatchObject({ alphabet: 'gsm', parts: 1 });
  });

  test.each(['{bed}', '{', "it's '{x}'", '<b>pit</b>', '# 3', '$&'])('a bed may be called %s', (name) => {
    expect(lines(name).text.startsWith(`${name}: `)).toBe(true);
  });

  test('a name never breaks a line', () => {
    expect(lines(' Pit\r\nA\u2028B\t').text.startsWith('Pit A B: ')).toBe(true);
  });
});

describe('the caution', () => {
  const CAUTION = 'Rotten roots: never eat or feed, bury.';

  test('is in the message where it fits', () => {
    const message = shortMessage('raised', anAlarm({ place: null }), PIT, { ...EN, caution: true });
    expect(message.text).toMatch(new RegExp(`Answer OK 3 or FOUND ROT 3\\. ${CAUTION}$`));
    expect(message).not.toHaveProperty('more');
    expect(message.parts).toBe(1);
  });

  test('is a text of its own where it does not, and takes no room from the place', () => {
    const { more, ...rest } = shortMessage('raised', anAlarm({ place: NEAR }), PIT, { ...EN, caution: true });
    expect(more).toBe(CAUTION);
    expect(rest).toEqual(shortMessage('raised', anAlarm({ place: NEAR }), PIT, EN));
  });
});

test('a note stands first and counts', () => {
  const note = 'Not answered by Amina since 3 h.';
  const message = shortMessage('raised', anAlarm({ place: NEAR }), PIT, { ...EN, note });
  expect(message.text.startsWith(`${note} Pit A: `)).toBe(true);
  expect(message).toMatchObject({ alphabet: 'gsm', parts: 1 });
});

describe('is refused', () => {
  test.each([0, -1, 1.5, 10_000, Number.NaN, Number.POSITIVE_INFINITY])('the short number %s', (number) => {
    expect(() => shortMessage('raised', anAlarm(), PIT, { ...EN, number })).toThrow(
      expect.objectContaining({
        code: 'OUT_OF_DOMAIN',
        message: `short number of an alarm must be a whole number of 1..9999, got ${number}`,
      }),
    );
  });

  test('a language that there is not', () => {
    expect(() => shortMessage('raised', anAlarm(), PIT, { ...EN, language: 'xx' })).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test('a place that is none', () => {
    const place = { x: Number.NaN, y: 0, depth: 0, radius: 0 };
    expect(() => shortMessage('raised', anAlarm({ place }), PIT, EN)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, 0, 0.04, -1, '1.8'])(
    'an excess of %s, as a number',
    (excess_C) => {
      const odd = anAlarm({ evidence: { excess_C }, place: null, clearedAt: at('2026-05-25T00:00:00Z') });
      expect(shortMessage('raised', odd, PIT, { language: 'en' }).text).toMatch(/^Pit A: sand too warm\. /);
    },
  );
});
