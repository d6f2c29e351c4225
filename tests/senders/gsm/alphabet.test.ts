import fc from 'fast-check';
import { expect, test } from 'vitest';
import { septetsOf } from '../../../services/core/alarms/septets.js';
import { fromSeptets, toSeptets } from '../../../services/senders/gsm/alphabet.js';
import { pack, unpack } from '../../../services/senders/gsm/septet-packing.js';

const SEED = 20260524;

// 3GPP TS 23.038 table of section 6.2.1, as in Unicode's GSM0338.TXT.
test.each([
  ['@', 0x00],
  ['$', 0x02],
  ['¥', 0x03],
  ['é', 0x05],
  ['Ç', 0x09],
  ['\n', 0x0a],
  ['Δ', 0x10],
  ['_', 0x11],
  ['Ω', 0x15],
  ['Σ', 0x18],
  ['Ξ', 0x1a],
  ['%', 0x25],
  ['A', 0x41],
  ['z', 0x7a],
  ['ö', 0x7c],
  ['à', 0x7f],
])('%j has the code %d', (character, code) => {
  expect(toSeptets(character)).toEqual([code]);
});

// The extension table of section 6.2.1.1.
test.each([
  ['\f', 0x0a],
  ['^', 0x14],
  ['{', 0x28],
  ['}', 0x29],
  ['\\', 0x2f],
  ['[', 0x3c],
  ['~', 0x3d],
  [']', 0x3e],
  ['|', 0x40],
  ['€', 0x65],
])('%j is the escape and %d', (character, code) => {
  expect(toSeptets(character)).toEqual([0x1b, code]);
  expect(fromSeptets([0x1b, code])).toBe(character);
});

test.each(['°', 'º', 'µ', '±', '²', '–', '’', '…', '`', '\t', 'α', 'ç', '\x1b', '\u{1f360}'])(
  '%j is in neither table',
  (character) => {
    expect(toSeptets(`a${character}`)).toBeUndefined();
  },
);

test('every character counts as many septets as it is told to elsewhere', () => {
  for (let code = 0; code <= 0xffff; code += 1) {
    const character = String.fromCharCode(code);
    if (toSeptets(character)?.length !== septetsOf(character)) expect(code.toString(16)).toBe('agreed');
  }
});

test('there are 127 characters and an escape', () => {
  const known = Array.from({ length: 0x10000 }, (_, code) => toSeptets(String.fromCharCode(code)));
  expect(known.filter((septets) => septets?.length === 1)).toHaveLength(127);
  expect(known.filter((septets) => septets?.length === 2)).toHaveLength(10);
});

test('every septet but the escape comes back from its character', () => {
  for (let code = 0; code < 128; code += 1)
    if (code !== 0x1b) expect(toSeptets(fromSeptets([code]))).toEqual([code]);
});

// Notes 1 and 2 under the tables of sections 6.2.1 and 6.2.1.1.
test('an escape before a code that is in no extension gives the plain character', () => {
  expect(fromSeptets([0x1b, 0x41, 0x42])).toBe('AB');
});

test('two escapes, and one at the end, give a space', () => {
  expect(fromSeptets([0x41, 0x1b, 0x1b, 0x42])).toBe('A B');
  expect(fromSeptets([0x41, 0x1b])).toBe('A ');
});

const septets = fc.array(fc.integer({ min: 0, max: 127 }), { maxLength: 160 });

test('any septets come back from octets, behind any fill bits', () => {
  fc.assert(
    fc.property(septets, fc.integer({ min: 0, max: 6 }), (codes, fillBits) => {
      const octets = pack(codes, fillBits);
      expect(octets).toHaveLength(Math.ceil((codes.length * 7 + fillBits) / 8));
      expect(unpack(Uint8Array.from(octets), codes.length, fillBits)).toEqual(codes);
    }),
    { seed: SEED },
  );
});

test('any septets at all give a text', () => {
  fc.assert(
    fc.property(septets, (codes) => {
      expect(fromSeptets(codes).length).toBeLessThanOrEqual(codes.length);
    }),
    { seed: SEED },
  );
});

const hex = (octets: readonly number[]): string => Buffer.from(octets).toString('hex').toUpperCase();

// Published worked examples of section 6.1.2.1, in several manuals of modem makers and notes on the data unit.
test.each([
  ['hello', 'E8329BFD06'],
  ['hellohello', 'E8329BFD4697D9EC37'],
  ['Hello,my pretty world!', 'C8329BFD66B5F320B8BC4CA7E741F7B79C4D0E01'],
])('%s packs as published', (text, digits) => {
  expect(hex(pack(toSeptets(text) ?? []))).toBe(digits);
});

test('eight septets fill seven octets, and no more are read than are there', () => {
  expect(pack([127, 127, 127, 127, 127, 127, 127, 127])).toEqual([255, 255, 255, 255, 255, 255, 255]);
  expect(unpack(Uint8Array.of(0xe8, 0x32), 10)).toEqual([0x68, 0x65]);
  expect(unpack(new Uint8Array(), 3)).toEqual([]);
});
