import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { septetsOf } from '../../../services/core/alarms/septets.js';
import { splitIntoParts } from '../../../services/senders/gsm/segments.js';

const SEED = 20260524;
const textsOf = (text: string): string[] => splitIntoParts(text, 7).map((part) => part.text);
const lengthsOf = (text: string): number[] => textsOf(text).map((part) => part.length);

describe('sizes follow from 140 octets', () => {
  test.each([
    ['160 of one septet', 'a'.repeat(160), [160]],
    ['161', 'a'.repeat(161), [153, 8]],
    ['two full parts', 'a'.repeat(306), [153, 153]],
    ['one more', 'a'.repeat(307), [153, 153, 1]],
    ['158 and a euro', `${'a'.repeat(158)}€`, [159]],
    ['159 and a euro', `${'a'.repeat(159)}€`, [153, 7]],
    ['70 in UCS-2', 'α'.repeat(70), [70]],
    ['71 in UCS-2', 'α'.repeat(71), [67, 4]],
    ['134 in UCS-2', 'α'.repeat(134), [67, 67]],
    ['160 with a degree sign', `${'a'.repeat(159)}°`, [67, 67, 26]],
  ])('%s', (_, text, lengths) => {
    expect(lengthsOf(text)).toEqual(lengths);
  });
});

test('an escape pair is not torn: the 153rd septet stays empty', () => {
  expect(textsOf(`${'a'.repeat(152)}€${'b'.repeat(20)}`)).toEqual(['a'.repeat(152), `€${'b'.repeat(20)}`]);
});

test('a surrogate pair is not torn: the 67th unit stays empty', () => {
  expect(lengthsOf(`${'α'.repeat(66)}\u{1f360}${'α'.repeat(20)}`)).toEqual([66, 22]);
});

test('one message has no header; parts are numbered from 1', () => {
  expect(splitIntoParts('a', 7)).toEqual([{ coding: 'gsm-7', text: 'a' }]);
  expect(splitIntoParts('°'.repeat(71), 255).map((part) => part.concatenation)).toEqual([
    { reference: 255, total: 2, number: 1 },
    { reference: 255, total: 2, number: 2 },
  ]);
});

test('half a surrogate pair goes out as the replacement character', () => {
  expect(splitIntoParts('a\ud83cb', 0)).toEqual([{ coding: 'ucs-2', text: 'a\ufffdb' }]);
});

test('parts together are the text, and none is too long', () => {
  const character = fc.constantFrom('a', '€', '{', 'é', '\u{1f360}', '°');
  fc.assert(
    fc.property(fc.array(character, { maxLength: 500 }), (characters) => {
      const text = characters.join('');
      const parts = splitIntoParts(text, 1);
      expect(parts.map((part) => part.text).join('')).toBe(text);
      for (const part of parts) {
        const gsm = part.coding === 'gsm-7';
        const units = gsm ? (septetsOf(part.text) ?? Number.NaN) : part.text.length;
        const most = parts.length > 1 ? (gsm ? 153 : 67) : gsm ? 160 : 70;
        expect(units).toBeLessThanOrEqual(most);
      }
    }),
    { seed: SEED },
  );
});

test.each([-1, 256, 1.5, Number.NaN])('%d is no reference', (reference) => {
  expect(() => splitIntoParts('a', reference)).toThrow('expected a reference from 0 to 255');
});

test('more parts than a header can count are refused', () => {
  expect(splitIntoParts('a'.repeat(255 * 153), 0)).toHaveLength(255);
  expect(() => splitIntoParts('a'.repeat(255 * 153 + 1), 0)).toThrow(
    'expected a text of at most 255 parts, got 256',
  );
});
