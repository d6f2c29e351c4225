/** What the encoder writes, read by the service's own intake: it comes out as the readings that were meant. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MESSAGE_LIMITS, readMessage } from '../../../services/intake/index.js';
import { type Milli, type Pack, RESULT, startEncoder } from './encoder.js';

const encoder = startEncoder();

const TOPIC = 'sandlarder/v1/ridge-station/probes/p01/readings';
/** Time of day at uptime 0, s. */
const ZERO_s = 1_780_000_000;
const MADE_s = 1_767_225_600;
/** Enough for any pack of these tests. */
const AMPLE = 100_000;
const SMALLEST = 256;

interface Reading {
  readonly at: number;
  readonly values: readonly [Milli, Milli, Milli];
}

const NAMES = ['temperature', 'humidity', 'battery'] as const;

/** What the service should measure of readings. */
const meant = (readings: readonly Reading[]) =>
  readings.flatMap(({ at, values }) =>
    values.flatMap((milli, place) =>
      milli === undefined
        ? []
        : [{ quantity: NAMES[place], time: (ZERO_s + at) * 1000, value: milli / 1000 }],
    ),
  );

/** Reads a pack as the service does, arrived at an uptime of the probe. */
const taken = ({ text }: Pack, now: number) =>
  readMessage({ topic: TOPIC, payload: Buffer.from(text), receivedAt: (ZERO_s + now) * 1000 });

async function fill(readings: readonly Reading[], capacity = Math.max(3, readings.length)): Promise<void> {
  await encoder.begin(capacity);
  await Promise.all(readings.map(({ at, values }) => encoder.add(at, ...values)));
}

const OUTAGE: readonly Reading[] = [
  { at: 600, values: [21_375, 87_400, 3020] },
  { at: 1200, values: [-500, undefined, 3020] },
  { at: 1800, values: [undefined, 100_000, undefined] },
];

describe('a pack is taken in whole', () => {
  test('with a clock: one base time, and seconds since then', async () => {
    await fill(OUTAGE);
    await encoder.ask('clock', 1800, ZERO_s + 1800, MADE_s);
    const pack = await encoder.pack(AMPLE, 1900);
    expect(pack.text).toBe(
      '[{"bt":1780000600,"seq":1,"lost":0,"n":"temperature","u":"Cel","v":21.375},' +
        '{"n":"humidity","u":"%RH","v":87.4},{"n":"battery","u":"V","v":3.02},' +
        '{"n":"temperature","u":"Cel","t":600,"v":-0.5},{"n":"battery","u":"V","t":600,"v":3.02},' +
        '{"n":"humidity","u":"%RH","t":1200,"v":100}]',
    );
    // Arrives late: absolute times do not care.
    expect(taken(pack, 9000)).toMatchObject({ measured: meant(OUTAGE), setAside: [] });
  });

  test('without a clock: seconds before now', async () => {
    await fill(OUTAGE);
    const pack = await encoder.pack(AMPLE, 1800);
    expect(pack.text).not.toContain('"bt"');
    expect(pack.text).toContain('"t":-1200,"v":21.375');
    expect(pack.text.endsWith('{"n":"humidity","u":"%RH","v":100}]')).toBe(true);
    expect(taken(pack, 1800)).toMatchObject({ measured: meant(OUTAGE), setAside: [] });
  });

  test('written anew later it means the same readings', async () => {
    await fill(OUTAGE);
    expect(taken(await encoder.pack(AMPLE, 7200), 7200).measured).toEqual(meant(OUTAGE));
  });

  test('in parts, each acknowledged, nothing twice and nothing left', async () => {
    const readings = Array.from(
      { length: 30 },
      (_, n): Reading => ({ at: n * 600, values: [20_000 + n, 90_000, n] }),
    );
    await fill(readings);
    const measured = [];
    for (let pack = await encoder.pack(512, 18_000); pack.result === RESULT.OK; ) {
      measured.push(...taken(pack, 18_000).measured);
      expect(await encoder.release(pack.last)).toBe(pack.readings);
      pack = await encoder.pack(512, 18_000);
    }
    expect(measured).toEqual(meant(readings));
    expect((await encoder.queue()).sequences).toEqual([]);
  });

  test('as many records as the service takes, and no more', async () => {
    const readings = Array.from({ length: 1700 }, (_, at): Reading => ({ at, values: [0, 0, 0] }));
    await fill(readings);
    const pack = await encoder.pack(MESSAGE_LIMITS.payload_bytes, 1700);
    expect(pack.readings).toBe(Math.floor(MESSAGE_LIMITS.records / 3));
    expect(taken(pack, 1700)).toMatchObject({ measured: { length: 3 * pack.readings }, setAside: [] });
  });

  test('its first record says the number of its first reading, and what was lost', async () => {
    await fill(OUTAGE, 3);
    await encoder.add(2400, 21_000);
    expect(JSON.parse((await encoder.pack(AMPLE, 2400)).text)[0]).toMatchObject({ seq: 1, lost: 1 });
    await encoder.release(1);
    expect(JSON.parse((await encoder.pack(AMPLE, 2400)).text)[0]).toMatchObject({ seq: 3, lost: 1 });
  });
});

describe('nothing is written', () => {
  test('of an empty queue', async () => {
    await encoder.begin(3);
    expect(await encoder.pack(AMPLE, 0)).toMatchObject({ result: RESULT.EMPTY, text: '' });
  });

  test('of a reading after now', async () => {
    await fill(OUTAGE);
    expect(await encoder.pack(AMPLE, 1799)).toMatchObject({ result: RESULT.BAD_TIME, text: '' });
  });

  test('past the year 2106', async () => {
    await fill(OUTAGE);
    await encoder.ask('clock', 0, 2 ** 32 - 2000, MADE_s);
    expect((await encoder.pack(AMPLE, 1999)).result).toBe(RESULT.OK);
    expect(await encoder.pack(AMPLE, 2000)).toMatchObject({ result: RESULT.BAD_TIME, text: '' });
  });

  test('into no buffer', async () => {
    await fill(OUTAGE);
    expect(await encoder.pack(0, 1800)).toMatchObject({ result: RESULT.TOO_SMALL });
  });
});

test('every size of buffer holds as many readings as fit, and never more', async () => {
  await fill(OUTAGE);
  const packs = await Promise.all(Array.from({ length: 420 }, (_, size) => encoder.pack(size, 1800)));
  for (const [size, pack] of packs.entries()) {
    if (pack.result === RESULT.TOO_SMALL) expect(pack.text).toBe('');
    else
      expect(taken(pack, 1800)).toMatchObject({
        measured: meant(OUTAGE.slice(0, pack.readings)),
        setAside: [],
      });
    expect(pack.text.length).toBeLessThan(Math.max(1, size));
    expect(pack.readings).toBeGreaterThanOrEqual(packs[size - 1]?.readings ?? 0);
  }
  // One byte fewer than a pack and its zero byte, and its last reading is left out.
  const whole = packs.findIndex(({ readings }) => readings === OUTAGE.length);
  expect(whole).toBe((packs[whole]?.length ?? 0) + 1);
});

test.each([[[-273_149, -19_999, 999_999]], [[999_999, 129_999, 1]]] as const)(
  'one reading fits into the smallest buffer, whatever its numbers: %j',
  async (values) => {
    for (const epoch of [0, 2 ** 32 - 1]) {
      await encoder.begin(3, 2 ** 32 - 1);
      await encoder.add(0, ...values);
      await encoder.ask('clock', 0, epoch, MADE_s);
      const pack = await encoder.pack(SMALLEST, epoch === 0 ? 2 ** 32 - 1 : 0);
      expect(pack).toMatchObject({ result: RESULT.OK, readings: 1, last: 2 ** 32 - 1 });
      expect(JSON.parse(pack.text)).toHaveLength(3);
    }
  },
);

test('thousandths are written as the number that they are, without idle zeros', async () => {
  const limits = [-(2 ** 31), 2 ** 31 - 1, -1, 0, 1, 10, 100, 1000, -1000, 1001, 1010, 1100, 999, -999];
  const some = fc.sample(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }), { seed: 7, numRuns: 300 });
  const numbers = [...limits, ...some];
  const written = await Promise.all(numbers.map((milli) => encoder.ask('milli', milli)));
  expect(written).toEqual(numbers.map((milli) => String(milli / 1000)));
});

const milli = (min: number, max: number) =>
  fc.option(fc.oneof(fc.integer({ min, max }), fc.constantFrom(min, max)), { nil: undefined });
const anyReading = fc.record({
  after: fc.oneof(fc.integer({ min: 1, max: 4000 }), fc.integer({ min: 1, max: 10_000_000 })),
  values: fc.tuple(milli(-273_150, 1_000_000), milli(-20_000, 130_000), milli(0, 1_000_000)),
});

/** Drawn readings at rising times, without those that state nothing. */
function readingsOf(drawn: readonly { after: number; values: Reading['values'] }[]): Reading[] {
  const readings: Reading[] = [];
  let at = 0;
  for (const { after, values } of drawn) {
    if (values.every((value) => value === undefined)) continue;
    at += after;
    readings.push({ at, values });
  }
  return readings;
}

/** What holds of any pack of readings that was written at an uptime. */
function expectMeant(pack: Pack, readings: readonly Reading[], size: number, now: number): void {
  expect(pack.text.length).toBeLessThan(Math.max(1, size));
  if (readings.length === 0) expect(pack.result).toBe(RESULT.EMPTY);
  else if (size >= SMALLEST) expect(pack.result).toBe(RESULT.OK);
  if (pack.result !== RESULT.OK) {
    expect(pack.text).toBe('');
    return;
  }
  expect(pack.length).toBe(pack.text.length);
  const { measured, setAside } = taken(pack, now);
  expect({ measured, setAside }).toEqual({ measured: meant(readings.slice(0, pack.readings)), setAside: [] });
}

test('any readings, any buffer, with a clock or without: what is written is what was meant', async () => {
  const drawn = fc.array(anyReading, { minLength: 1, maxLength: 12 });
  const size = fc.integer({ min: 0, max: 1500 });
  await fc.assert(
    fc.asyncProperty(drawn, size, fc.boolean(), fc.nat(5000), async (draws, bytes, hasClock, waited) => {
      const readings = readingsOf(draws);
      const now = (readings.at(-1)?.at ?? 0) + waited;
      await fill(readings);
      if (hasClock) await encoder.ask('clock', now, ZERO_s + now, MADE_s);
      expectMeant(await encoder.pack(bytes, now), readings, bytes, now);
    }),
    { seed: 8428, numRuns: 150 },
  );
});
