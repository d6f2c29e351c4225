/** SenML against the packs printed in RFC 8428 [V] and its rules on time, names and versions. */
import { describe, expect, test } from 'vitest';
import { type ResolvedRecord, resolvePack } from '../../services/intake/senml.js';

const ARRIVED_AT = 1_780_000_000_123;

function resolve(pack: unknown): readonly ResolvedRecord[] {
  const resolved = resolvePack(pack, ARRIVED_AT);
  if (!resolved.ok) throw new Error(resolved.problem);
  return resolved.records;
}

function problemOf(pack: unknown): string {
  const resolved = resolvePack(pack, ARRIVED_AT);
  if (resolved.ok) throw new Error('expected a refusal');
  return resolved.problem;
}

const brief = ({ name, unit, time, value }: ResolvedRecord) => [name, unit, time, value];

describe('the example packs of RFC 8428 section 5.1 [V]', () => {
  test('5.1.1: one record without time is of the time of arrival', () => {
    const pack = [{ n: 'urn:dev:ow:10e2073a01080063', u: 'Cel', v: 23.1 }];
    expect(resolve(pack).map(brief)).toEqual([['urn:dev:ow:10e2073a01080063', 'Cel', ARRIVED_AT, 23.1]]);
  });

  test('5.1.2: base name, base time to the millisecond, base unit, version below ours', () => {
    const pack = [
      {
        bn: 'urn:dev:ow:10e2073a0108006:',
        bt: 1.276020076001e9,
        bu: 'A',
        bver: 5,
        n: 'voltage',
        u: 'V',
        v: 120.1,
      },
      { n: 'current', t: -5, v: 1.2 },
      { n: 'current', t: -4, v: 1.3 },
      { n: 'current', t: -3, v: 1.4 },
      { n: 'current', t: -2, v: 1.5 },
      { n: 'current', t: -1, v: 1.6 },
      { n: 'current', v: 1.7 },
    ];
    const current = 'urn:dev:ow:10e2073a0108006:current';
    expect(resolve(pack).map(brief)).toEqual([
      ['urn:dev:ow:10e2073a0108006:voltage', 'V', 1_276_020_076_001, 120.1],
      [current, 'A', 1_276_020_071_001, 1.2],
      [current, 'A', 1_276_020_072_001, 1.3],
      [current, 'A', 1_276_020_073_001, 1.4],
      [current, 'A', 1_276_020_074_001, 1.5],
      [current, 'A', 1_276_020_075_001, 1.6],
      [current, 'A', 1_276_020_076_001, 1.7],
    ]);
  });

  test('5.1.2: a stream under one base time and unit', () => {
    const values = [21.2, 21.3, 21.4, 21.4, 21.5, 21.5, 21.5, 21.6, 21.7];
    const [first, ...later] = values.map((v, index) => ({ t: 10 * index, v }));
    const pack = [{ bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: '%RH', v: first?.v }, ...later];
    expect(resolve(pack).map(brief)).toEqual(
      values.map((v, index) => ['urn:dev:ow:10e2073a01080063', '%RH', 1_320_067_464_000 + 10_000 * index, v]),
    );
  });

  // Columns: unit, t in the pack of 5.1.3 (undefined: none), value, resolved time of 5.1.4 in seconds.
  const MOBILE = [
    ['%RH', undefined, 20, 1320067464],
    ['lon', undefined, 24.30621, 1320067464],
    ['lat', undefined, 60.07965, 1320067464],
    ['%RH', 60, 20.3, 1320067524],
    ['lon', 60, 24.30622, 1320067524],
    ['lat', 60, 60.07965, 1320067524],
    ['%RH', 120, 20.7, 1320067584],
    ['lon', 120, 24.30623, 1320067584],
    ['lat', 120, 60.07966, 1320067584],
    ['%EL', 150, 98, 1320067614],
    ['%RH', 180, 21.2, 1320067644],
    ['lon', 180, 24.30628, 1320067644],
    ['lat', 180, 60.07967, 1320067644],
  ] as const;

  test('5.1.3 resolves to 5.1.4', () => {
    const records = MOBILE.map(([u, t, v]) => ({
      ...(u === '%RH' ? {} : { u }),
      ...(t === undefined ? {} : { t }),
      v,
    }));
    const pack = [
      { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: '%RH', ...records[0] },
      ...records.slice(1),
    ];
    expect(resolve(pack).map(brief)).toEqual(
      MOBILE.map(([u, , v, time]) => ['urn:dev:ow:10e2073a01080063', u, time * 1000, v]),
    );
  });

  test('5.1.5: numbers, strings, booleans and octets', () => {
    const pack = [
      { bn: 'urn:dev:ow:10e2073a01080063:', n: 'temp', u: 'Cel', v: 23.1 },
      { n: 'label', vs: 'Machine Room' },
      { n: 'open', vb: false },
      { n: 'nfv-reader', vd: 'aGkgCg' },
    ];
    const values = resolve(pack).map(({ value }) => value);
    expect(values.slice(0, 3)).toEqual([23.1, 'Machine Room', false]);
    expect(Buffer.from(values[3] as Uint8Array).toString()).toBe('hi \n');
  });

  test('5.1.6: the base name is replaced, the base time of the first record stays', () => {
    const pack = [
      { bn: '2001:db8::2/', bt: 1.320078429e9, n: 'temperature', u: 'Cel', v: 25.2 },
      { n: 'humidity', u: '%RH', v: 30 },
      { bn: '2001:db8::1/', n: 'temperature', u: 'Cel', v: 12.3 },
      { n: 'humidity', u: '%RH', v: 67 },
    ];
    expect(resolve(pack).map(brief)).toEqual([
      ['2001:db8::2/temperature', 'Cel', 1_320_078_429_000, 25.2],
      ['2001:db8::2/humidity', '%RH', 1_320_078_429_000, 30],
      ['2001:db8::1/temperature', 'Cel', 1_320_078_429_000, 12.3],
      ['2001:db8::1/humidity', '%RH', 1_320_078_429_000, 67],
    ]);
  });
});

describe('time [RFC 8428 4.5.3]', () => {
  const timeOf = (record: object) => resolve([{ n: 'temperature', v: 1, ...record }])[0]?.time;

  test.each([
    ['no time', {}, ARRIVED_AT],
    ['zero', { t: 0 }, ARRIVED_AT],
    ['the past', { t: -600 }, ARRIVED_AT - 600_000],
    ['the future', { t: 2.5 }, ARRIVED_AT + 2500],
    ['fractions of a millisecond, to the nearest', { t: 0.0016 }, ARRIVED_AT + 2],
    ['the last relative second', { t: 268_435_455 }, ARRIVED_AT + 268_435_455_000],
    ['2^28, the first absolute second', { t: 268_435_456 }, 268_435_456_000],
    ['a sum that reaches 2^28', { bt: 268_435_450, t: 6 }, 268_435_456_000],
    ['a sum just below 2^28', { bt: 268_435_450, t: 5 }, ARRIVED_AT + 268_435_455_000],
    ['an absolute base and a negative time', { bt: 1.32e9, t: -5 }, 1_319_999_995_000],
    ['a relative base', { bt: -100, t: -20 }, ARRIVED_AT - 120_000],
  ])('%s', (_what, record, expected) => expect(timeOf(record)).toBe(expected));

  test('2^28 s is 1978-07-04T21:24:16Z [V]', () => {
    expect(new Date(timeOf({ t: 2 ** 28 }) ?? 0).toISOString()).toBe('1978-07-04T21:24:16.000Z');
  });

  test('every millisecond of a second survives the sum', () => {
    for (let ms = 0; ms < 1000; ms += 1)
      expect(timeOf({ bt: 1_780_000_000, t: ms / 1000 })).toBe(1_780_000_000_000 + ms);
  });
});

describe('base fields', () => {
  test('persist until replaced', () => {
    const pack = [
      { bn: 'a/', bu: 'Cel', bv: 20, n: 'x', v: 0.5 },
      { n: 'y', v: 1 },
      { bv: 10, bu: 'K', n: 'x', v: 1 },
      { bn: 'b/', n: 'x', u: 'V' },
    ];
    expect(resolve(pack).map(({ name, unit, value }) => [name, unit, value])).toEqual([
      ['a/x', 'Cel', 20.5],
      ['a/y', 'Cel', 21],
      ['a/x', 'K', 11],
      ['b/x', 'V', 10],
    ]);
  });

  test('sums are added, and one side is enough [RFC 8428 4.5.4]', () => {
    const pack = [
      { n: 'x', v: 1 },
      { n: 'x', s: 3 },
      { bs: 10, n: 'x', s: 3 },
      { n: 'x', v: 1 },
    ];
    expect(resolve(pack).map(({ sum }) => sum)).toEqual([undefined, 3, 13, 10]);
  });

  test('alone they state nothing, but hold for what follows', () => {
    const pack = [{ bn: 'temperature', bu: 'Cel', bt: 1.7e9 }, { v: 20 }];
    expect(resolve(pack).map(brief)).toEqual([['temperature', 'Cel', 1_700_000_000_000, 20]]);
  });

  test('a number is not added to a string, a boolean or octets', () => {
    const pack = [
      { bv: 5, n: 'x', vs: 'a' },
      { n: 'x', vb: true },
    ];
    expect(resolve(pack).map(({ value }) => value)).toEqual(['a', true]);
  });
});

describe('what refuses the pack', () => {
  test.each([
    ['no list', { n: 'temperature', v: 1 }, 'expected an array of records, got an object'],
    ['null', null, 'expected an array of records, got null'],
    ['base fields alone', [{}, { bn: 'x', bv: 3 }], 'expected a record with more than base fields, got none'],
    ['an empty list', [], 'expected at least one record, got an empty array'],
    ['a record that is no object', [{ n: 'x', v: 1 }, 7], 'record 2: expected an object, got 7'],
    ['a list for a record', [[]], 'record 1: expected an object, got a list of 0'],
    ['a base time in words', [{ bt: 'noon', n: 'x', v: 1 }], 'record 1: bt: expected a number, got "noon"'],
    ['a base name that is a number', [{ bn: 7, n: 'x', v: 1 }], 'record 1: bn: expected a string, got 7'],
    ['a version above ours', [{ bver: 11, n: 'x', v: 1 }], 'bver: expected a version up to 10, got 11'],
    [
      'a version in fractions',
      [{ bver: 9.5, n: 'x', v: 1 }],
      'record 1: bver: expected a positive integer, got 9.5',
    ],
    ['a version of zero', [{ bver: 0, n: 'x', v: 1 }], 'record 1: bver: expected a positive integer, got 0'],
  ])('%s', (_what, pack, problem) => expect(problemOf(pack)).toBe(problem));

  test('a label that must be understood and is not, anywhere in the pack', () => {
    const pack = [
      { n: 'x', v: 1 },
      { n: 'x', v: 1, secret_: 1 },
    ];
    expect(problemOf(pack)).toContain('"secret_"');
  });

  test('a version above ours in a later record', () => {
    expect(
      problemOf([
        { n: 'x', v: 1 },
        { bver: 12, n: 'x', v: 1 },
      ]),
    ).toContain('got 12');
  });
});

test('version 10 and labels that nobody knows are taken', () => {
  expect(resolve([{ bver: 10, n: 'x', v: 1, l: 'a link', _x: 1, toString: 3 }])).toHaveLength(1);
});

describe('what stays with its record', () => {
  test.each([
    ['null, as NaN is written', { v: null }, 'v: expected a number, got null'],
    ['a number in words', { v: '21.5' }, 'v: expected a number, got "21.5"'],
    ['a time in words', { v: 1, t: 'now' }, 't: expected a number, got "now"'],
    ['a unit that is no string', { v: 1, u: 3 }, 'u: expected a string, got 3'],
    ['two values', { v: 1, vs: 'a' }, 'expected one of v, vs, vb and vd, got 2 of them'],
    ['padded octets', { vd: 'aGk=' }, 'vd: expected octets in unpadded URL-safe base64, got "aGk="'],
  ])('%s', (_what, fields, fault) => {
    const pack = [
      { bt: 1.7e9, n: 'x', v: 1 },
      { n: 'y', ...fields },
      { n: 'z', v: 3 },
    ];
    expect(resolve(pack).map((record) => record.fault)).toEqual([undefined, fault, undefined]);
    expect(resolve(pack)[2]).toMatchObject({ index: 2, time: 1_700_000_000_000, value: 3 });
  });
});
