/** The way `sms` over a real serial port: a pseudo-terminal with a modem that misbehaves on its far end. */
import { EventEmitter, once } from 'node:events';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { AtLimits } from '../../services/senders/gsm/at-channel.js';
import {
  createSmsModem,
  type ModemEvent,
  type ModemStatus,
  type ReceivedMessage,
  type SmsModem,
} from '../../services/senders/gsm/index.js';
import type { ModemLimits } from '../../services/senders/gsm/modem.js';
import { aMessage } from '../senders/array-outbox.js';
import { concatenated, deliver, statusReport } from '../senders/gsm/network-side.js';
import { PtyPair } from '../senders/gsm/pty-pair.js';
import { ScriptedModem } from '../senders/gsm/scripted-modem.js';

const AT = Date.parse('2026-05-24T15:00:07Z');
const KEEPER = '+46701234567';

/** Shorter than in the field, so that silence is noticed soon; long enough for a loaded machine. */
const LIMITS: Partial<ModemLimits & AtLimits> = {
  answer_ms: 1500,
  prompt_ms: 1500,
  accept_ms: 1500,
  wake_ms: 300,
  round_ms: 400,
  search_ms: 100,
  sweep_ms: 1000,
  reopen: { first_ms: 50, longest_ms: 400 },
};

let device: ScriptedModem;
let line: PtyPair;
let way: SmsModem;
let states: ModemStatus[];
let received: ReceivedMessage[];
let delivered: (readonly [string, number, boolean])[];
let log: ModemEvent[];
let news: EventEmitter;

beforeEach(() => {
  device = new ScriptedModem();
  line = new PtyPair(device);
  [states, received, delivered, log] = [[], [], [], []];
  news = new EventEmitter();
});
afterEach(async () => {
  await way.close();
  await line.dispose();
});

function begin(): SmsModem {
  way = createSmsModem({
    path: line.path,
    baudRate: 115_200,
    onState: (status) => news.emit('news', states.push(status)),
    onReceived: async (message) => void news.emit('news', received.push(message)),
    onDelivered: (...told) => news.emit('news', delivered.push(told)),
    log: (event) => news.emit('news', log.push(event)),
    limits: LIMITS,
  });
  return way;
}

/** Waits for the next piece of news until something is so; the test's own time limit ends a wait in vain. */
async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await once(news, 'news');
}

const inState = (state: ModemStatus['state']) => until(() => way.status.state === state);

async function registered(): Promise<void> {
  await line.plug();
  begin();
  await inState('registered');
}

const sms = (text: string, key = text) =>
  aMessage({ key, via: 'sms', to: KEEPER, body: JSON.stringify({ text }), createdAt: AT });

const texts = (): string[] => device.accepted.map(({ text }) => text);

/** One character at a time, each in a write of its own. */
function inPieces(write: (text: string) => void): (text: string) => void {
  let queue: string[] = [];
  const next = (): void => {
    const piece = queue.shift();
    if (piece === undefined) return;
    write(piece);
    setImmediate(next);
  };
  return (text) => {
    const idle = queue.length === 0;
    queue = [...queue, ...text];
    if (idle) setImmediate(next);
  };
}

test('a message goes, its report comes, an answer is received', async () => {
  await registered();
  await way.send(sms('Pit A: dig at 40 cm. Grävdjup {40} €'));
  device.say('+CDS: 26', statusReport({ reference: 1, to: KEEPER, at: AT, status: 0 }));
  device.say(`+CMTI: "SM",${device.store(deliver({ from: KEEPER, text: '12 ok', at: AT }))}`);
  await until(() => delivered.length === 1 && received.length === 1);
  expect(texts()).toEqual(['Pit A: dig at 40 cm. Grävdjup {40} €']);
  expect(delivered).toEqual([['Pit A: dig at 40 cm. Grävdjup {40} €', AT, true]]);
  expect(received).toEqual([{ from: KEEPER, text: '12 ok', sentAt: AT, complete: true }]);
  expect(way.status.signal_dBm).toBe(-73);
});

test('with echo, in single characters, with noise, and news in the middle of everything', async () => {
  device.echo = true;
  await line.plug();
  device.write = inPieces((text) => line.writeRaw(text));
  device.override = (command) => {
    line.writeRaw('\r\n\xff\x00+CREG: 1\r\n');
    return command === 'AT+CSQ' ? ['RING', '+CSQ: 11,99', '^RSSI: 11', '+CMTI: "SM",99', 'OK'] : undefined;
  };
  begin();
  await inState('registered');
  device.onMessage = (message) => [
    '+CDS: 26',
    statusReport({ reference: 200, to: KEEPER, at: AT, status: 0 }),
    'RING',
    ...device.accept(message),
  ];
  const long = 'Öppna lådan: 23 °C '.repeat(12);
  await way.send(sms(long));
  expect(texts().join('')).toBe(long);
  expect(way.status.signal_dBm).toBe(-91);
});

test('late answers, and ERROR followed by OK', async () => {
  await registered();
  let refused = false;
  device.onMessage = (message) => {
    if (!refused) {
      refused = true;
      return ['ERROR', 'OK'];
    }
    setTimeout(() => device.say(...device.accept(message)), LIMITS.search_ms);
    return [];
  };
  await expect(way.send(sms('late'))).rejects.toMatchObject({ permanent: false });
  await way.send(sms('late'));
  expect(texts()).toEqual(['late']);
});

test('torn out in the middle of a message, and put back', async () => {
  await registered();
  let tearing: Promise<void> | undefined;
  device.onMessage = () => {
    tearing = line.tearOut();
    return [];
  };
  await expect(way.send(sms('torn'))).rejects.toMatchObject({
    name: 'SandlarderError',
    code: 'RECEIVER_UNAVAILABLE',
    permanent: false,
  });
  await inState('lost');
  await tearing;
  device.onMessage = () => undefined;
  await line.plug();
  await inState('registered');
  await way.send(sms('torn'));
  expect(texts()).toEqual(['torn']);
});

test('torn out between the parts of a message: those that had gone are not sent again', async () => {
  await registered();
  let tearing: Promise<void> | undefined;
  device.onMessage = (message) => {
    if (device.accepted.length < 1) return undefined;
    tearing ??= line.tearOut();
    return message === '' ? undefined : [];
  };
  const long = 'a'.repeat(400);
  await expect(way.send(sms(long))).rejects.toMatchObject({ permanent: false });
  await tearing;
  device.onMessage = () => undefined;
  await line.plug();
  await inState('registered');
  await way.send(sms(long));
  expect(device.accepted.map(({ concatenation }) => concatenation?.[2])).toEqual([1, 2, 3]);
  expect(texts().join('')).toBe(long);
});

test('silent, then awake again', async () => {
  await registered();
  device.silent = true;
  await expect(way.send(sms('quiet'))).rejects.toMatchObject({ permanent: false });
  device.silent = false;
  await inState('registered');
  await way.send(sms('quiet'));
  expect(texts()).toEqual(['quiet']);
});

test('hung for good: reset, and the port opened again', async () => {
  await registered();
  device.silent = true;
  await inState('lost');
  expect(device.commands).toContain('AT+CFUN=1,1');
  expect(log).toContainEqual({ type: 'modem-reset' });
  device.silent = false;
  // A real one leaves the bus and comes back.
  await line.tearOut();
  await line.plug();
  await inState('registered');
});

test('no port at first, no card, no network: each is found', async () => {
  device.sim = undefined;
  device.registration = 2;
  begin();
  await inState('lost');
  await line.plug();
  await inState('no-sim');
  await expect(way.send(sms('early'))).rejects.toMatchObject({ permanent: false });
  device.sim = 'READY';
  device.say('+CPIN: READY');
  await inState('searching');
  device.registration = 1;
  device.say('+CREG: 1');
  await inState('registered');
  await way.send(sms('early'));
  expect(texts()).toEqual(['early']);
});

test('the parts of an answer, with the modem torn out between them', async () => {
  const part = (number: number, text: string) =>
    device.store(deliver({ from: KEEPER, text, at: AT, header: concatenated(9, 2, number) }));
  await registered();
  device.say(`+CMTI: "SM",${part(2, 'b'.repeat(20))}`);
  await line.tearOut();
  await inState('lost');
  part(1, 'a'.repeat(153));
  await line.plug();
  await until(() => received.length === 1);
  expect(received[0]).toMatchObject({ text: 'a'.repeat(153) + 'b'.repeat(20), complete: true });
  await inState('registered');
});

test('given back, the port can be opened by another at once', async () => {
  await registered();
  await way.close();
  states.length = 0;
  // The line is closed with it: a terminal without a master is gone.
  await line.tearOut();
  await line.plug();
  begin();
  await inState('registered');
});
