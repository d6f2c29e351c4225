import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { DeliveryError } from '../../../services/senders/delivery-error.js';
import {
  createSmsModem,
  type SmsModem,
  type SmsModemOptions,
} from '../../../services/senders/gsm/sms-modem.js';
import { OutboxRunner } from '../../../services/senders/outbox-runner.js';
import { ArrayOutbox, aMessage } from '../array-outbox.js';
import { ManualTimer } from '../manual-timer.js';
import { passUntil, portTo, quiet, until } from './memory-line.js';
import { statusReport } from './network-side.js';
import { ScriptedModem } from './scripted-modem.js';

const AT = Date.parse('2026-05-24T15:00:07Z');
const KEEPER = '+46701234567';

let timer: ManualTimer;
let device: ScriptedModem;
let way: SmsModem;
let delivered: (readonly [string, number, boolean])[];
let tearOut: () => void;

beforeEach(() => {
  timer = new ManualTimer(AT);
  device = new ScriptedModem();
  delivered = [];
});
afterEach(() => way.close());

async function begin(otherwise: Partial<SmsModemOptions> = {}): Promise<SmsModem> {
  way = createSmsModem({
    path: '/dev/null',
    baudRate: 115_200,
    timer,
    random: () => 0.5,
    open: async () => {
      const port = portTo(device);
      tearOut = () => port.stream.destroy();
      return port;
    },
    onState: () => undefined,
    onReceived: async () => undefined,
    onDelivered: (...told) => delivered.push(told),
    ...otherwise,
  });
  await passUntil(timer, 'a network', () => way.status.state === 'registered');
  await quiet();
  return way;
}

const sms = (text: unknown = 'Pit A: dig at 40 cm', otherwise: Parameters<typeof aMessage>[0] = {}) =>
  aMessage({
    via: 'sms',
    to: KEEPER,
    body: JSON.stringify({ text, line: 'ignored' }),
    createdAt: AT,
    ...otherwise,
  });

async function refusalOf(message: ReturnType<typeof sms>): Promise<DeliveryError> {
  const error: unknown = await way.send(message).then(
    () => undefined,
    (reason) => reason,
  );
  expect(error).toBeInstanceOf(DeliveryError);
  return error as DeliveryError;
}

const report = (reference: number, status: number): void =>
  device.say('+CDS: 26', statusReport({ reference, to: KEEPER, at: AT + 9000, status }));

test('a message goes to its number with its text, a long one in parts', async () => {
  await begin();
  expect(way.name).toBe('sms');
  await way.send(sms('kurz'));
  await way.send(sms('a'.repeat(161), { key: 'k2' }));
  await way.send(sms('b'.repeat(161), { key: 'k3' }));
  expect(device.accepted.map(({ to, text }) => [to, text.length])).toEqual([
    [KEEPER, 4],
    [KEEPER, 153],
    [KEEPER, 8],
    [KEEPER, 153],
    [KEEPER, 8],
  ]);
  expect(device.accepted.map(({ concatenation }) => concatenation)).toEqual([
    undefined,
    [128, 2, 1],
    [128, 2, 2],
    [129, 2, 1],
    [129, 2, 2],
  ]);
});

describe('what will never go is a refusal', () => {
  test.each([
    ['no number', { to: '0701234567' }, 'sms: expected a number as + and 7 to 15 digits'],
    ['a command in place of a number', { to: '+46701234567\rAT+CFUN=0' }, 'sms: expected a number'],
    ['no JSON', { body: 'x' }, 'sms: expected a body with the text of a short message'],
    ['no text', { body: '{"line":"x"}' }, 'sms: expected a body with the text of a short message'],
    ['an empty text', { body: '{"text":""}' }, 'sms: expected a body with the text of a short message'],
    ['a number for a text', { body: '{"text":5}' }, 'sms: expected a body with the text of a short message'],
    ['an endless text', { body: JSON.stringify({ text: 'a'.repeat(100_000) }) }, 'at most 10 parts'],
    ['11 parts', { body: JSON.stringify({ text: 'α'.repeat(671) }) }, 'at most 10 parts, got one of 671'],
  ])('%s', async (_, otherwise, reason) => {
    await begin();
    const error = await refusalOf(sms('a', otherwise));
    expect(error).toMatchObject({ permanent: true, code: 'BAD_REQUEST' });
    expect(error.message).toContain(reason);
    expect(device.accepted).toEqual([]);
  });
});

test.each([
  [1, true],
  [8, true],
  [21, true],
  [28, true],
  [38, false],
  [41, false],
  [42, false],
  [305, true],
  [310, false],
  [322, false],
  [330, false],
  [331, false],
  [500, false],
  [65_000, false],
])('+CMS ERROR: %d is lasting: %s', async (code, permanent) => {
  await begin();
  device.onMessage = () => [`+CMS ERROR: ${code}`];
  const error = await refusalOf(sms());
  expect(error).toMatchObject({ permanent, code: permanent ? 'BAD_REQUEST' : 'RECEIVER_UNAVAILABLE' });
  expect(error.message).toMatch(new RegExp(`^sms: modem: .*got \\+CMS ERROR: ${code}`));
});

test('an ERROR without a number may pass', async () => {
  await begin();
  device.onMessage = () => ['ERROR', 'OK'];
  expect(await refusalOf(sms())).toMatchObject({ permanent: false });
  device.onMessage = () => undefined;
  await way.send(sms());
  expect(device.accepted).toHaveLength(1);
});

test('without a network it may pass', async () => {
  await begin();
  device.registration = 2;
  device.say('+CREG: 2');
  await until('no network', () => way.status.state === 'searching');
  expect(await refusalOf(sms())).toMatchObject({
    permanent: false,
    message: 'sms: modem: expected to be registered, got searching: No network found.',
  });
});

describe('after an interruption', () => {
  test('it goes on with the part that was interrupted', async () => {
    await begin();
    let count = 0;
    device.onMessage = () => {
      count += 1;
      return count === 2 ? ['+CMS ERROR: 41'] : undefined;
    };
    const long = sms('a'.repeat(400));
    expect(await refusalOf(long)).toMatchObject({ permanent: false });
    await way.send(long);
    expect(device.accepted.map(({ concatenation }) => concatenation?.[2])).toEqual([1, 2, 3]);
    expect(new Set(device.accepted.map(({ concatenation }) => concatenation?.[0])).size).toBe(1);
  });

  test('torn out in the middle of a part, it is sent when the modem is back', async () => {
    await begin();
    device.onMessage = () => {
      tearOut();
      return [];
    };
    expect(await refusalOf(sms())).toMatchObject({ permanent: false });
    device.onMessage = () => undefined;
    await passUntil(timer, 'a loss', () => way.status.state !== 'registered');
    await passUntil(timer, 'a network', () => way.status.state === 'registered');
    await way.send(sms());
    expect(device.accepted).toHaveLength(1);
  });

  test('asked again while it is being sent, it is sent once', async () => {
    await begin();
    await Promise.all([way.send(sms()), way.send(sms()), way.send(sms())]);
    await way.send(sms());
    expect(device.accepted).toHaveLength(1);
  });
});

describe('what the network says became of it', () => {
  test('delivered when all parts are', async () => {
    await begin();
    await way.send(sms('a'.repeat(161), { key: 'long' }));
    report(1, 0x20);
    report(1, 0);
    await quiet();
    expect(delivered).toEqual([]);
    report(2, 0);
    await until('the report', () => delivered.length > 0);
    expect(delivered).toEqual([['long', AT + 9000, true]]);
  });

  test('not delivered as soon as one part is not', async () => {
    await begin();
    await way.send(sms('a'.repeat(161), { key: 'long' }));
    report(2, 0x46);
    report(1, 0);
    await until('the report', () => delivered.length > 0);
    await quiet();
    expect(delivered).toEqual([['long', AT + 9000, false]]);
  });

  test('of a message that is not known, nothing', async () => {
    await begin();
    report(77, 0);
    await quiet();
    expect(delivered).toEqual([]);
  });
});

test('with the outbox: a modem that is away delays, and nothing is lost or doubled', async () => {
  await begin();
  const outbox = new ArrayOutbox();
  for (const key of ['a', 'b', 'c', 'd', 'e'])
    outbox.add(sms(`text ${key}`, { key, to: `+4670123456${key.charCodeAt(0) % 10}` }));
  const runner = new OutboxRunner({ outbox, ways: [way], timer, random: () => 0.5 });
  let count = 0;
  device.onMessage = () => {
    count += 1;
    if (count === 2) tearOut();
    return count === 2 ? [] : undefined;
  };
  runner.kick();
  await passUntil(timer, 'all', () => Object.values(outbox.states).every((state) => state === 'delivered'));
  expect(device.accepted.map(({ text }) => text).sort()).toEqual([
    'text a',
    'text b',
    'text c',
    'text d',
    'text e',
  ]);
  await runner.close();
});

test.each(['', '123', '123456789', '12a4', '1234\r', '"1234'])('%j is refused as a PIN', async (pin) => {
  await begin();
  const options = {
    path: '/dev/null',
    baudRate: 9600,
    onState: () => undefined,
    onReceived: async () => undefined,
  };
  expect(() => createSmsModem({ ...options, pin })).toThrow('expected a PIN of 4 to 8 digits');
});
