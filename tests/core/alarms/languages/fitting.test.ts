/** Parts of short messages: limits computed from 140 octets (3GPP TS 23.040), boundaries from the length of a header. */
import { describe, expect, test } from 'vitest';
import { firstFitting, measured } from '../../../../services/core/alarms/languages/index.js';

const a = (count: number): string => 'a'.repeat(count);
const sha = (count: number): string => 'ሻ'.repeat(count);

describe('parts', () => {
  test.each([
    ['nothing', '', 'gsm', 1],
    ['160 septets', a(160), 'gsm', 1],
    ['161 septets', a(161), 'gsm', 2],
    ['an escape pair over the end', `${a(159)}€`, 'gsm', 2],
    ['two full parts', a(306), 'gsm', 2],
    ['one more', a(307), 'gsm', 3],
    ['an escape pair that would be split at 153', `${a(152)}€${a(152)}`, 'gsm', 3],
    ['70 in UCS-2', sha(70), 'ucs2', 1],
    ['71 in UCS-2', sha(71), 'ucs2', 2],
    ['134 in UCS-2', sha(134), 'ucs2', 2],
    ['135 in UCS-2', sha(135), 'ucs2', 3],
    ['a surrogate pair that would be split at 67', `${sha(66)}😀${sha(66)}`, 'ucs2', 3],
    ['a degree sign', '1.8 °C', 'ucs2', 1],
    ['half a surrogate pair', '\ud83d', 'ucs2', 1],
  ])('%s', (_, text, alphabet, parts) => {
    expect(measured(text)).toEqual({ text, alphabet, parts });
  });
});

describe('the first that fits', () => {
  test('is not the shortest', () => {
    expect(firstFitting([a(161), a(160), a(3)]).text).toBe(a(160));
  });

  test('takes two parts in UCS-2', () => {
    expect(firstFitting([sha(135), sha(134), sha(3)]).text).toBe(sha(134));
  });

  test('where none does, the first with the fewest parts, whole', () => {
    expect(firstFitting([a(400), a(306), a(170)])).toEqual({ text: a(306), alphabet: 'gsm', parts: 2 });
  });
});
