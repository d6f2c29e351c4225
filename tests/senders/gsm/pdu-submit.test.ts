import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodeSubmit, relativeValidity, type Submit } from '../../../services/senders/gsm/pdu-submit.js';
import { type Part, splitIntoParts } from '../../../services/senders/gsm/segments.js';
import { encodeUserData } from '../../../services/senders/gsm/user-data.js';
import { readSubmit } from './network-side.js';

const SEED = 20260524;
const DAY_min = 24 * 60;

const submit = (otherwise: Partial<Submit> = {}): Submit =>
  Object.freeze<Submit>({
    to: '+46708251358',
    part: { coding: 'gsm-7', text: 'hellohello' },
    statusReport: false,
    validity_min: 4 * DAY_min,
    ...otherwise,
  });

// The worked example that many notes on the data unit give: "hellohello" to 46708251358, valid for four days.
test('the published example comes out digit for digit', () => {
  expect(encodeSubmit(submit())).toEqual({
    hex: '0011000B916407281553F80000AA0AE8329BFD4697D9EC37',
    length: 23,
  });
});

// First octet of TS 23.040 section 9.2.2.2: bit 5 asks for a status report, bit 6 tells of a header.
test('a status report and a header are told in the first octet, the reference in the second', () => {
  expect(encodeSubmit(submit({ statusReport: true, reference: 0xab })).hex).toMatch(/^0031AB0B91/);
  const [part] = splitIntoParts('a'.repeat(161), 1);
  expect(encodeSubmit(submit({ part: part ?? submit().part })).hex).toMatch(/^0051000B91/);
});

test('a number with an even count of digits has no filler', () => {
  expect(encodeSubmit(submit({ to: '+4670825135' })).hex).toMatch(/^0011000A9164072815530000AA/);
});

const octetsOf = (part: Part): string => Buffer.from(encodeUserData(part)).toString('hex').toUpperCase();

// Maker's manual for a GSM module: "hello" in UCS-2.
test('UCS-2 user data is as published', () => {
  expect(octetsOf({ coding: 'ucs-2', text: 'hello' })).toBe('0A00680065006C006C006F');
});

// A published first part of three: reference 1, then "hellohello..." one bit behind the header's six octets.
test('the text of a part begins at a septet boundary', () => {
  const concatenation = { reference: 1, total: 3, number: 1 };
  const digits = octetsOf({ coding: 'gsm-7', text: 'hellohello'.repeat(16).slice(0, 153), concatenation });
  expect(digits).toMatch(/^A0050003010301D0/);
  expect(digits).toHaveLength(2 * 141);
});

describe('the relative validity period of section 9.2.3.12.1', () => {
  test.each([
    [5, 0],
    [6, 1],
    [12 * 60, 143],
    [12 * 60 + 1, 144],
    [12 * 60 + 30, 144],
    [DAY_min, 167],
    [DAY_min + 1, 168],
    [2 * DAY_min, 168],
    [30 * DAY_min, 196],
    [30 * DAY_min + 1, 197],
    [5 * 7 * DAY_min, 197],
    [63 * 7 * DAY_min, 255],
  ])('%d min is %d', (validity_min, octet) => {
    expect(relativeValidity(validity_min)).toBe(octet);
  });

  test.each([4.9, 0, -1, 63 * 7 * DAY_min + 1, Number.NaN, Number.POSITIVE_INFINITY])(
    '%d min cannot be told',
    (validity_min) => {
      expect(() => relativeValidity(validity_min)).toThrow('validity, min must be in [5, 635040]');
    },
  );
});

test('what a network reads is what was sent', () => {
  const character = fc.constantFrom('a', 'Z', '@', 'à', '€', '[', ' ', '\n', '\u{1f360}', '°');
  const texts = fc.array(character, { minLength: 1, maxLength: 400 });
  fc.assert(
    fc.property(texts, fc.boolean(), (characters, statusReport) => {
      const text = characters.join('');
      const read = splitIntoParts(text, 200).map((part) =>
        readSubmit(encodeSubmit(submit({ part, statusReport })).hex),
      );
      expect(read.map((part) => part.text).join('')).toBe(text);
      for (const [index, part] of read.entries()) {
        expect(part).toMatchObject({ to: '+46708251358', validity: 0xaa, statusReport });
        expect(part.concatenation).toEqual(read.length > 1 ? [200, read.length, index + 1] : undefined);
      }
    }),
    { seed: SEED },
  );
});

test.each(['0708251358', '', '+46708251358F', '+4670825135８'])('%j is refused as a number', (to) => {
  expect(() => encodeSubmit(submit({ to }))).toThrow('expected a number as + and 7 to 15 digits');
});

test.each([-1, 256, Number.NaN])('%d is refused as a reference', (reference) => {
  expect(() => encodeSubmit(submit({ reference }))).toThrow('message reference must be in [0, 255]');
});

test('a character that the named alphabet lacks is refused', () => {
  expect(() => encodeSubmit(submit({ part: { coding: 'gsm-7', text: '23°' } }))).toThrow(
    'expected characters of the GSM 7-bit alphabet',
  );
});
