// 3GPP TS 23.038 section 6.2.1, as in unicode.org GSM0338.TXT [V]; limits computed from 140 octets [C].
import { expect, test } from 'vitest';
import { ONE_MESSAGE_septets, septetsOf } from '../../../services/core/alarms/septets.js';

test('one message holds 140 octets of 8 bits in septets', () => {
  expect(ONE_MESSAGE_septets).toBe((140 * 8) / 7);
});

test('the basic set has its 127 characters beside the escape, each one septet', () => {
  let basic = 0;
  for (let code = 0; code < 0x3000; code++) if (septetsOf(String.fromCharCode(code)) === 1) basic += 1;
  expect(basic).toBe(127);
});

test('the ten characters of the extension are two septets each', () => {
  for (const character of '\f^{}\\[~]|€') expect([character, septetsOf(character)]).toEqual([character, 2]);
});

test('what is in neither is not counted', () => {
  for (const character of '°º²±µ–’…`\tαç😀')
    expect([character, septetsOf(`a${character}`)]).toEqual([character, undefined]);
});

test.each([
  ['', 0],
  ['a'.repeat(160), 160],
  [`${'a'.repeat(159)}€`, 161],
  ['@$¥éÇΔ_ΩΣ%àö', 12],
])('%s counts %d', (text, septets) => {
  expect(septetsOf(text)).toBe(septets);
});
