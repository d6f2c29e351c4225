import { describe, expect, test } from 'vitest';
import { alarmDocument } from '../../services/core/alarms/document.js';
import { LAMP_LIMITS, Lamp, type Publication } from '../../services/senders/lamp.js';
import { anAlarm } from '../core/alarms/an-alarm.js';
import { ManualTimer, settle } from './manual-timer.js';

const UNPACK = anAlarm();
const CHECK = anAlarm({ id: 'check', action: 'check' });
const json = (alarm = UNPACK) => JSON.stringify(alarmDocument(alarm));

/** A broker that takes everything, refuses everything, or keeps everybody waiting. */
function aLamp() {
  const published: Publication[] = [];
  const waiting: ((error?: Error) => void)[] = [];
  const broker: { mode: 'takes' | 'refuses' | 'waits' } = { mode: 'takes' };
  const timer = new ManualTimer(0);
  const failures: string[] = [];
  const lamp = new Lamp({
    timer,
    log: ({ topic, error }) => failures.push(`${topic}: ${error}`),
    publish: async (publication) => {
      published.push(publication);
      if (broker.mode === 'refuses') throw new Error('not\nconnected');
      if (broker.mode === 'waits')
        await new Promise<void>((resolve, reject) =>
          waiting.push((error) => (error ? reject(error) : resolve())),
        );
    },
  });
  const payloads = (bed = 'pit-a') =>
    published.filter(({ topic }) => topic.includes(`/${bed}/`)).map(({ payload }) => payload);
  return { lamp, broker, timer, published, payloads, waiting, failures };
}

test('the most urgent open alarm is retained under the topic of the contract at QoS 1', async () => {
  const { lamp, published } = aLamp();
  lamp.show('ridge-station', 'pit-a', [CHECK, UNPACK]);
  await settle();
  expect(published).toEqual([
    { topic: 'sandlarder/v1/ridge-station/beds/pit-a/alarm', payload: json(), qos: 1, retain: true },
  ]);
});

test('with no open alarm the payload is empty', async () => {
  const { lamp, payloads } = aLamp();
  lamp.show('ridge-station', 'pit-a', [anAlarm({ clearedAt: 5 })]);
  await settle();
  expect(payloads()).toEqual(['']);
});

test('it is published only where it changes what is shown', async () => {
  const { lamp, payloads } = aLamp();
  for (const alarms of [[], [CHECK], [CHECK], [UNPACK, CHECK], [UNPACK], []]) {
    lamp.show('ridge-station', 'pit-a', alarms);
    await settle();
  }
  expect(payloads()).toEqual(['', json(CHECK), json(UNPACK), '']);
});

test('an acknowledgement shows', async () => {
  const { lamp, payloads } = aLamp();
  lamp.show('ridge-station', 'pit-a', [UNPACK]);
  lamp.show('ridge-station', 'pit-a', [anAlarm({ state: 'acknowledged' })]);
  await settle();
  expect(payloads().at(-1)).toContain('"state":"acknowledged"');
});

test('all beds are published again at a connection', async () => {
  const { lamp, published } = aLamp();
  lamp.show('ridge-station', 'pit-a', [UNPACK]);
  lamp.show('ridge-station', 'box-2', []);
  await settle();
  lamp.refresh();
  await settle();
  expect(published.slice(2)).toEqual(published.slice(0, 2));
});

test('while one is on its way the next waits, and only the newest goes', async () => {
  const { lamp, broker, payloads, waiting } = aLamp();
  broker.mode = 'waits';
  lamp.show('ridge-station', 'pit-a', []);
  lamp.show('ridge-station', 'pit-a', [CHECK]);
  lamp.show('ridge-station', 'pit-a', [UNPACK]);
  await settle();
  expect(payloads()).toEqual(['']);
  waiting[0]?.();
  await settle();
  expect(payloads()).toEqual(['', json(UNPACK)]);
});

test('a thousand beds do not go all at once', async () => {
  const { lamp, broker, published, waiting } = aLamp();
  broker.mode = 'waits';
  for (let n = 0; n < 1000; n += 1) lamp.show('ridge-station', `pit-${n}`, []);
  await settle();
  expect(published).toHaveLength(LAMP_LIMITS.concurrency);
  broker.mode = 'takes';
  for (const answer of waiting) answer();
  while (published.length < 1000) await settle();
  expect(new Set(published.map(({ topic }) => topic)).size).toBe(1000);
});

describe('when the broker refuses', () => {
  test('it is tried again after a while', async () => {
    const { lamp, broker, timer, payloads, failures } = aLamp();
    broker.mode = 'refuses';
    lamp.show('ridge-station', 'pit-a', [UNPACK]);
    await settle();
    expect(timer.waits_ms).toEqual([LAMP_LIMITS.retry_ms]);
    broker.mode = 'takes';
    await timer.advance(LAMP_LIMITS.retry_ms);
    expect(payloads()).toEqual([json(), json()]);
    expect(timer.waits_ms).toEqual([]);
    expect(failures).toEqual(['sandlarder/v1/ridge-station/beds/pit-a/alarm: not connected']);
  });

  test('it is tried again at the next change of any bed', async () => {
    const { lamp, broker, timer, payloads } = aLamp();
    broker.mode = 'refuses';
    lamp.show('ridge-station', 'pit-a', [UNPACK]);
    await settle();
    broker.mode = 'takes';
    lamp.show('ridge-station', 'box-2', []);
    await settle();
    expect(payloads()).toEqual([json(), json()]);
    expect(timer.waits_ms).toEqual([]);
  });

  test('it does not spin', async () => {
    const { lamp, broker, timer, published } = aLamp();
    broker.mode = 'refuses';
    lamp.show('ridge-station', 'pit-a', [UNPACK]);
    lamp.show('ridge-station', 'box-2', []);
    await settle();
    expect(published).toHaveLength(2);
    await timer.advance(LAMP_LIMITS.retry_ms);
    expect(published).toHaveLength(4);
  });

  test('a change that came meanwhile is what is tried', async () => {
    const { lamp, broker, timer, payloads, waiting } = aLamp();
    broker.mode = 'waits';
    lamp.show('ridge-station', 'pit-a', [UNPACK]);
    lamp.show('ridge-station', 'pit-a', []);
    broker.mode = 'takes';
    waiting[0]?.(new Error('lost'));
    await settle();
    await timer.advance(LAMP_LIMITS.retry_ms);
    expect(payloads()).toEqual([json(), '']);
  });
});

test('a publication that hangs is given up at the next connection, and its end no longer counts', async () => {
  const { lamp, broker, timer, payloads, waiting } = aLamp();
  broker.mode = 'waits';
  lamp.show('ridge-station', 'pit-a', [UNPACK]);
  await settle();
  broker.mode = 'takes';
  lamp.refresh();
  await settle();
  waiting[0]?.(new Error('closed'));
  await settle();
  expect(payloads()).toEqual([json(), json()]);
  expect(timer.waits_ms).toEqual([]);
});

test('closed, it publishes nothing more and no timer runs', async () => {
  const { lamp, broker, timer, published } = aLamp();
  broker.mode = 'refuses';
  lamp.show('ridge-station', 'pit-a', [UNPACK]);
  await settle();
  lamp.close();
  lamp.show('ridge-station', 'pit-a', []);
  lamp.refresh();
  await settle();
  expect(published).toHaveLength(1);
  expect(timer.waits_ms).toEqual([]);
});

test.each([
  ['+', 'pit-a'],
  ['ridge-station', '#'],
  ['ridge-station', 'a/b'],
  ['', 'pit-a'],
  ['ridge-station', 'Pit A'],
])('site "%s" with bed "%s" is refused', (site, bed) => {
  const { lamp, published } = aLamp();
  expect(() => lamp.show(site, bed, [])).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  expect(published).toEqual([]);
});
