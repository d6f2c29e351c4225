import { describe, expect, test } from 'vitest';
import { MESSAGE_LIMITS } from '../../services/intake/limits.js';
import { readMessage } from '../../services/intake/read-message.js';

const RECEIVED_AT = Date.UTC(2026, 5, 1, 12);
const TOPIC = 'sandlarder/v1/ridge-station/probes/p01/readings';
const STATUS = 'sandlarder/v1/ridge-station/probes/p01/status';

const read = (payload: string | Uint8Array, topic = TOPIC, limits = MESSAGE_LIMITS) =>
  readMessage({ topic, payload: Buffer.from(payload), receivedAt: RECEIVED_AT }, limits);

const readPack = (...records: object[]) => read(JSON.stringify(records));

/** A record as a probe sends it, with what a test changes. */
const record = (changes: object = {}) => ({ n: 'temperature', u: 'Cel', v: 20, ...changes });

const asideOf = (...records: object[]) => readPack(...records).setAside[0];

describe('what is measured', () => {
  test('one pack of several quantities and times', () => {
    const pack = [
      { bn: 'pit-a/p01/', bt: 1_780_000_000, n: 'temperature', u: 'Cel', v: 20.5 },
      { n: 'humidity', u: '%RH', v: 88 },
      { n: 'battery', u: 'V', v: 3.1, t: -600.5 },
    ];
    expect(readPack(...pack)).toEqual({
      kind: 'readings',
      site: 'ridge-station',
      probe: 'p01',
      measured: [
        { quantity: 'temperature', time: 1_780_000_000_000, value: 20.5 },
        { quantity: 'humidity', time: 1_780_000_000_000, value: 88 },
        { quantity: 'battery', time: 1_779_999_399_500, value: 3.1 },
      ],
      setAside: [],
    });
  });

  test.each([
    ['temperature', 'K', 293.15, 'temperature', 20],
    ['humidity', '/', 0.885, 'humidity', 88.5],
    ['battery', '%EL', 98, 'charge', 98],
    ['temperature', 'Cel', -127, 'temperature', -127],
    ['a/b:c/temperature', 'Cel', 85, 'temperature', 85],
  ])('%s in %s', (n, u, v, quantity, value) => {
    expect(readPack({ n, u, v }).measured).toEqual([{ quantity, time: RECEIVED_AT, value }]);
  });

  test('times up to the allowance past the arrival, and from 2000 on', () => {
    const { futureAllowance_ms, earliest_ms } = MESSAGE_LIMITS;
    const pack = [record({ t: futureAllowance_ms / 1000 }), record({ t: earliest_ms / 1000 })];
    expect(readPack(...pack).measured.map(({ time }) => time)).toEqual([
      RECEIVED_AT + futureAllowance_ms,
      Date.UTC(2000, 0, 1),
    ]);
  });
});

describe('status', () => {
  test.each([
    ['online', true],
    ['offline', false],
  ])('%s', (text, online) => {
    expect(read(text, STATUS)).toEqual({
      kind: 'status',
      site: 'ridge-station',
      probe: 'p01',
      measured: [],
      online,
      setAside: [],
    });
  });

  test.each(['Online', 'online\n', '1', '\u0000', '[{"n":"temperature","u":"Cel","v":1}]'])('%j', (text) => {
    const message = read(text, STATUS);
    expect(message.online).toBeUndefined();
    expect(message.setAside[0]?.reason).toBe('status-unknown');
    expect(message.setAside[0]?.detail).toMatch(/^expected online or offline, got "/);
  });
});

describe('a record is set aside, and the rest of its pack is not', () => {
  test.each([
    ['a name that nobody knows', { n: 'voltage' }, 'name-unknown', 'battery, got "voltage"'],
    ['a name of another part', { n: 'temperature/raw' }, 'name-unknown', 'got "temperature/raw"'],
    ['no name', { n: '' }, 'name-unknown', 'got ""'],
    ['an illegal name', { n: 'ü/temperature' }, 'name-unknown', 'expected a name of A-Z a-z 0-9 - : . / _'],
    ['a name that begins wrong', { n: '/temperature' }, 'name-unknown', 'got "/temperature"'],
    ['an inherited name', { n: 'constructor' }, 'name-unknown', 'got "constructor"'],
    ['a name of the prototype', { n: '__proto__' }, 'name-unknown', 'got "__proto__"'],
    ['a wrong unit', { u: 'Far' }, 'unit-unknown', 'expected the unit Cel or K, got "Far"'],
    ['an inherited unit', { u: 'toString' }, 'unit-unknown', 'got "toString"'],
    ['a unit of another quantity', { u: '%RH' }, 'unit-unknown', 'got "%RH"'],
    ['no unit', { u: undefined }, 'unit-unknown', 'expected the unit Cel or K, got nothing'],
    ['no value', { v: undefined }, 'value-missing', 'expected a number in v, got nothing'],
    ['a sum alone', { v: undefined, s: 4 }, 'value-missing', 'got nothing'],
    ['a value in words', { v: undefined, vs: 'NaN' }, 'value-missing', 'got "NaN"'],
    ['a boolean', { v: undefined, vb: true }, 'value-missing', 'got true'],
    ['octets', { v: undefined, vd: 'aGkgCg' }, 'value-missing', 'got 4 octets'],
    ['a null', { v: null }, 'not-senml', 'v: expected a number, got null'],
    ['a huge value', { v: 1e300 }, 'value-out-of-range', 'expected -273.15 to 1000 Cel, got 1e+300'],
    ['below absolute zero', { v: -273.16 }, 'value-out-of-range', 'got -273.16'],
    ['below absolute zero in K', { u: 'K', v: -0.5 }, 'value-out-of-range', 'got -273.65'],
    [
      'before 2000',
      { t: 946_684_799.999 },
      'time-too-early',
      'expected 2000-01-01T00:00:00.000Z or later, got 1999',
    ],
    ['far in the past', { t: -1e300 }, 'time-too-early', 'got -1e+303 ms'],
    ['just past the allowance', { t: 600.001 }, 'time-in-future', 'got 2026-06-01T12:10:00.001Z'],
    ['far in the future', { t: 1e300 }, 'time-in-future', 'got 1e+303 ms'],
  ])('%s', (_what, changes, reason, words) => {
    const message = readPack(record({ v: 1 }), record(changes), record({ v: 2 }));
    expect(message.measured.map(({ value }) => value)).toEqual([1, 2]);
    expect(message.setAside).toHaveLength(1);
    expect(message.setAside[0]?.reason).toBe(reason);
    expect(message.setAside[0]?.detail).toContain(words);
    expect(message.setAside[0]?.detail).toMatch(/^record 2 \(/);
  });

  test('numbers that only JSON can write', () => {
    const message = read(
      '[{"n":"temperature","u":"Cel","v":1e999},{"n":"temperature","u":"Cel","v":1,"t":-1e999}]',
    );
    expect(message.setAside.map(({ reason }) => reason)).toEqual(['value-out-of-range', 'time-too-early']);
  });

  test('a sum of times that is no number', () => {
    const message = read('[{"bt":1e999,"n":"temperature","u":"Cel","v":1,"t":-1e999}]');
    expect(message.setAside[0]?.reason).toBe('time-too-early');
    expect(message.measured).toEqual([]);
  });

  test('what is quoted is shortened', () => {
    expect(asideOf(record({ n: 'x'.repeat(10_000) }))?.detail.length).toBeLessThan(400);
  });
});

describe('a payload is refused', () => {
  const reasonOf = (payload: string | Uint8Array) => read(payload).setAside[0];

  test('empty', () => expect(reasonOf('')?.reason).toBe('payload-empty'));

  test.each([
    ['words', 'hello'],
    ['NaN, which JSON has not', '[{"n":"temperature","u":"Cel","v":NaN}]'],
    ['a trailing comma', '[{"n":"temperature","u":"Cel","v":1},]'],
    ['half a pack', '[{"n":"temperature","u":"Ce'],
    ['a byte order mark', '\ufeff[]'],
    ['bytes that are no text', Uint8Array.of(0xff, 0xfe, 0x00)],
  ])('%s', (_what, payload) => {
    expect(reasonOf(payload)?.reason).toBe('not-json');
    expect(reasonOf(payload)?.detail).toMatch(/^expected a SenML pack in JSON, got "/);
  });

  test.each([['21.5'], ['null'], ['{}'], ['[]'], ['[null]'], ['[[]]'], ['"temperature"'], ['[{"x_":1}]']])(
    '%s is JSON but no pack',
    (payload) => expect(reasonOf(payload)?.reason).toBe('not-senml'),
  );

  test('10,000 records', () => {
    const message = readPack(...Array.from({ length: 10_000 }, () => record()));
    expect(message.measured).toEqual([]);
    expect(message.setAside).toEqual([
      { reason: 'too-many-records', detail: 'expected at most 5000 records, got 10000' },
    ]);
  });

  test('as many records as may be are taken', () => {
    const records = Array.from({ length: MESSAGE_LIMITS.records }, () => record());
    expect(readPack(...records).measured).toHaveLength(MESSAGE_LIMITS.records);
  });

  test('a payload of a byte too many', () => {
    const pack = JSON.stringify([record()]);
    const just = { ...MESSAGE_LIMITS, payload_bytes: pack.length };
    expect(read(pack, TOPIC, just).measured).toHaveLength(1);
    expect(read(`${pack} `, TOPIC, just).setAside[0]).toEqual({
      reason: 'payload-too-long',
      detail: `expected at most ${pack.length} bytes, got ${pack.length + 1}`,
    });
  });

  test.each([
    ['lists', '['],
    ['objects', '{"a":'],
  ])('%s nested deeper than a stack', (_what, opening) => {
    const depth = Math.floor(MESSAGE_LIMITS.payload_bytes / (2 * opening.length + 2));
    const closing = opening === '[' ? ']' : '}';
    const nested = `[${opening.repeat(depth)}1${closing.repeat(depth)}]`;
    expect(['not-senml', 'value-missing']).toContain(read(nested).setAside[0]?.reason ?? 'value-missing');
  });
});

describe('a topic that is not ours', () => {
  test.each([
    [
      'sandlarder/v1/s/probes/p/reading',
      'level 6 of the topic: expected "readings" or "status", got "reading"',
    ],
    ['a'.repeat(65_535), 'expected a topic of at most 128 characters, got 65535'],
    ['\u0000', 'expected sandlarder/v1/{site}/probes/{probe}/readings or .../status'],
  ])('%.20j', (topic, words) => {
    const message = read(JSON.stringify([record()]), topic);
    expect(message).toMatchObject({ kind: 'other', measured: [] });
    expect(message.setAside[0]?.reason).toBe('topic-unknown');
    expect(message.setAside[0]?.detail).toContain(words);
  });
});

test('a view into a larger buffer is read, and not what lies around it', () => {
  const pack = Buffer.from(`xx${JSON.stringify([record()])}yy`);
  expect(read(pack.subarray(2, -2)).measured).toHaveLength(1);
});
