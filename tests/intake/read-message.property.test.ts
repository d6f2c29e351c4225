/** Whatever arrives: arbitrary bytes, JSON, packs and topics at the reader. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { STORABLE, UNIT_RULES } from '../../services/core/model/quantity.js';
import { MESSAGE_LIMITS } from '../../services/intake/limits.js';
import { type Measured, REASONS, type ReadMessage } from '../../services/intake/ports.js';
import { readMessage } from '../../services/intake/read-message.js';

const SEED = 8428;
const RUNS = 1000;
const settings = { seed: SEED, numRuns: RUNS };

const RECEIVED_AT = Date.UTC(2026, 5, 1, 12);
const TOPIC = 'sandlarder/v1/ridge-station/probes/p01/readings';

const read = (payload: Uint8Array, topic = TOPIC) => readMessage({ topic, payload, receivedAt: RECEIVED_AT });

/** What holds of any answer whatever. */
function expectSound(message: ReadMessage): void {
  for (const { quantity, time, value } of message.measured) {
    const [low, high] = STORABLE[quantity];
    expect(value >= low && value <= high).toBe(true);
    expect(Number.isInteger(time)).toBe(true);
    expect(
      time >= MESSAGE_LIMITS.earliest_ms && time <= RECEIVED_AT + MESSAGE_LIMITS.futureAllowance_ms,
    ).toBe(true);
  }
  for (const { reason, detail } of message.setAside) {
    expect(REASONS).toContain(reason);
    expect(detail.length).toBeGreaterThan(0);
    expect(detail.length).toBeLessThan(1000);
  }
  expect(
    message.measured.length + message.setAside.length + (message.online === undefined ? 0 : 1),
  ).toBeGreaterThan(0);
}

const name = fc.oneof(
  fc.constantFrom('temperature', 'humidity', 'battery', 'a/temperature', 'x', '', '__proto__', '/'),
  fc.string({ maxLength: 12 }),
);
const unit = fc.constantFrom('Cel', 'K', '%RH', '/', 'V', '%EL', 'lon', '', 'constructor');
const number = fc.oneof(
  fc.double({ min: -400, max: 1200, noNaN: true }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer({ min: -1000, max: 1000 }),
);
const time = fc.oneof(
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  fc.double({ min: 9e8, max: 1.9e9, noNaN: true }),
  fc.constantFrom(0, 2 ** 28, 2 ** 28 - 1, 1_780_000_000.001),
);

const validRecord = fc.record(
  {
    bn: name,
    bt: time,
    bu: unit,
    bv: number,
    bver: fc.integer({ min: 1, max: 10 }),
    n: name,
    u: unit,
    v: number,
    s: number,
    t: time,
    ut: number,
    extra: fc.jsonValue({ maxDepth: 1 }),
  },
  { requiredKeys: [] },
);
const validPack = fc.array(validRecord, { minLength: 1, maxLength: 12 });

const anyValue = fc.jsonValue({ maxDepth: 2 });
const anyRecord = fc.dictionary(
  fc.oneof(
    fc.constantFrom(
      'bn',
      'bt',
      'bu',
      'bv',
      'bs',
      'bver',
      'n',
      'u',
      'v',
      'vs',
      'vb',
      'vd',
      's',
      't',
      'ut',
      'x_',
      '_',
    ),
    fc.string({ maxLength: 5 }),
  ),
  fc.oneof(anyValue, number, name, unit),
);
const anyPack = fc.array(fc.oneof({ weight: 9, arbitrary: anyRecord }, { weight: 1, arbitrary: anyValue }), {
  maxLength: 8,
});

const toPayload = (value: unknown): Uint8Array => Buffer.from(JSON.stringify(value) ?? '');

describe('nothing that is sent makes it throw, and the answer is sound', () => {
  test('bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => expectSound(read(bytes))),
      settings,
    );
  });

  test('bytes on a status topic', () => {
    const topic = TOPIC.replace('readings', 'status');
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 20 }), (bytes) => expectSound(read(bytes, topic))),
      settings,
    );
  });

  test('JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => expectSound(read(toPayload(value)))),
      settings,
    );
  });

  test('packs of anything', () => {
    fc.assert(
      fc.property(anyPack, (pack) => expectSound(read(toPayload([{ n: 'x' }, ...pack])))),
      settings,
    );
  });

  test('a good pack with one byte changed', () => {
    const good = toPayload([{ bn: 'a/', bt: 1.78e9, n: 'temperature', u: 'Cel', v: 20.5 }]);
    fc.assert(
      fc.property(fc.nat(good.length - 1), fc.nat(255), (at, byte) => {
        const bytes = Uint8Array.from(good);
        bytes[at] = byte;
        expectSound(read(bytes));
      }),
      settings,
    );
  });

  test('topics', () => {
    const topic = fc.oneof(
      fc.string({ maxLength: 200, unit: 'binary' }),
      fc
        .array(
          fc.oneof(fc.constantFrom('sandlarder', 'v1', 'probes', 'readings', 'status', 's'), fc.string()),
          {
            maxLength: 8,
          },
        )
        .map((levels) => levels.join('/')),
    );
    fc.assert(
      fc.property(topic, (text) => expectSound(read(toPayload([{ n: 'x', v: 1 }]), text))),
      settings,
    );
  });
});

type ValidRecord = { [key in 'bn' | 'bu' | 'n' | 'u']?: string } & {
  [key in 'bt' | 'bv' | 'v' | 's' | 't' | 'ut']?: number;
};

/** RFC 8428 once more, slowly: each record looks back through the pack for each base field. */
function oracle(pack: readonly ValidRecord[]): { measured: Measured[]; records: number } {
  const measured: Measured[] = [];
  let records = 0;
  pack.forEach((record, index) => {
    const inForce = <K extends keyof ValidRecord>(key: K) =>
      pack.slice(0, index + 1).findLast((earlier) => earlier[key] !== undefined)?.[key];
    if (!(['n', 'u', 'v', 's', 't', 'ut'] as const).some((key) => record[key] !== undefined)) return;
    records += 1;
    const fullName = `${inForce('bn') ?? ''}${record.n ?? ''}`;
    const seconds = (inForce('bt') ?? 0) + (record.t ?? 0);
    const time =
      seconds < 268_435_456 ? RECEIVED_AT + Math.round(seconds * 1000) : Math.round(seconds * 1000);
    const base = inForce('bv');
    if (base === undefined && record.v === undefined) return;
    const units =
      Object.entries(UNIT_RULES).find(([quantity]) => quantity === fullName.split('/').at(-1))?.[1] ?? {};
    const rule = Object.entries(units).find(([symbol]) => symbol === (record.u ?? inForce('bu')))?.[1];
    if (!rule || !/^[A-Za-z0-9]/.test(fullName) || /[^A-Za-z0-9:./_-]/.test(fullName)) return;
    const value = rule.convert((base ?? 0) + (record.v ?? 0));
    const [low, high] = STORABLE[rule.quantity];
    if (value < low || value > high || Number.isNaN(value)) return;
    if (time < Date.UTC(2000, 0, 1) || time > RECEIVED_AT + 600_000) return;
    measured.push({ quantity: rule.quantity, time, value });
  });
  return { measured, records };
}

describe('a valid pack', () => {
  test('gives what a slow second reading of the RFC gives', () => {
    fc.assert(
      fc.property(validPack, (pack) => {
        // Through JSON, which has no -0.
        const sent = JSON.parse(JSON.stringify(pack)) as ValidRecord[];
        expect(read(toPayload(sent)).measured).toEqual(oracle(sent).measured);
      }),
      settings,
    );
  });

  test('accounts for every record that states something', () => {
    fc.assert(
      fc.property(validPack, (pack) => {
        const { measured, setAside } = read(toPayload([{ n: 'x', v: 1 }, ...pack]));
        expect(measured.length + setAside.length).toBe(1 + oracle(pack as ValidRecord[]).records);
      }),
      settings,
    );
  });

  test('some of the packs tried do measure something', () => {
    const counts = fc.sample(validPack, settings).map((pack) => read(toPayload(pack)).measured.length);
    expect(counts.filter((count) => count > 0).length).toBeGreaterThan(RUNS / 50);
  });
});
