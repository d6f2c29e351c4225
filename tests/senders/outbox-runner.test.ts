import { expect, test } from 'vitest';
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { RUNNER_LIMITS } from '../../services/senders/outbox-runner.js';
import type { Way } from '../../services/senders/ports.js';
import { aRunner, from, HOUR_ms, NOW } from './a-runner.js';
import { aMessage } from './array-outbox.js';
import { settle } from './manual-timer.js';

test('a message is sent once and recorded', async () => {
  const { outbox, way, events, kick } = aRunner();
  await kick(from('a', 'a1'));
  await kick();
  await way.succeed('a1');
  await kick();
  expect(way.sent).toEqual(['a1']);
  expect(outbox.states).toEqual({ a1: 'delivered' });
  expect(events).toEqual([{ type: 'delivered', key: 'a1', via: 'webhook' }]);
});

test('the look comes after the work of the caller, so that a transaction is over by then', async () => {
  const { outbox, way, runner } = aRunner();
  runner.kick();
  outbox.add(from('a', 'a1'));
  expect(way.sent).toEqual([]);
  await settle();
  expect(way.sent).toEqual(['a1']);
});

test('at most four are in flight, and one for each target', async () => {
  const { way, kick } = aRunner();
  await kick(...['a', 'a', 'b', 'c', 'd', 'e', 'f'].map((to, n) => from(to, `${to}${n}`)));
  expect(way.open).toEqual(['a0', 'b2', 'c3', 'd4']);
  await way.succeed('b2');
  expect(way.open).toEqual(['a0', 'c3', 'd4', 'e5']);
  await way.succeed('a0');
  expect(way.open).toEqual(['c3', 'd4', 'e5', 'a1']);
});

test('a failed message is tried again when its time has come, without a kick', async () => {
  const { outbox, timer, way, kick } = aRunner();
  await kick(from('a', 'a1'));
  await way.fail('a1');
  expect(outbox.row('a1')).toMatchObject({ state: 'waiting', error: 'down', nextAttemptAt: NOW + 1000 });
  await timer.advance(999);
  expect(way.sent).toHaveLength(1);
  await timer.advance(1);
  expect(way.sent).toHaveLength(2);
  await way.fail('a1');
  expect(outbox.row('a1').nextAttemptAt).toBe(NOW + 1000 + 2000);
});

test('a receiver that is away does not keep the others from being told', async () => {
  const { outbox, way, kick } = aRunner();
  await kick(from('a', 'a1'), from('b', 'b1'));
  await way.fail('a1');
  await way.succeed('b1');
  await kick(from('a', 'a2'));
  await way.succeed('a2');
  expect(outbox.states).toEqual({ a1: 'waiting', b1: 'delivered', a2: 'delivered' });
});

test('a receiver that asks to be left alone is left alone with all its messages, and no other is', async () => {
  const { timer, way, kick } = aRunner();
  await kick(from('a', 'a1'), from('a', 'a2'), from('b', 'b1'));
  await way.fail('a1', new DeliveryError('RECEIVER_UNAVAILABLE', 'busy', { retryAfter_ms: 30_000 }));
  await kick(from('a', 'a3'));
  expect(way.sent).toEqual(['a1', 'b1']);
  await timer.advance(29_999);
  expect(way.sent).toEqual(['a1', 'b1']);
  await timer.advance(1);
  expect(way.sent).toEqual(['a1', 'b1', 'a2']);
});

test('where the clock is set, who asked to be left alone is left alone as long as before', async () => {
  const { timer, way, runner, kick } = aRunner();
  await kick(from('a', 'a1'), from('a', 'a2'));
  await way.fail('a1', new DeliveryError('RECEIVER_UNAVAILABLE', 'busy', { retryAfter_ms: 30_000 }));
  // Of a clock that was set back by ten seconds: twenty are left by the timer, whose clock goes on.
  runner.clockSet(-10_000);
  await timer.advance(19_999);
  expect(way.sent).toEqual(['a1']);
  await timer.advance(1);
  expect(way.sent).toEqual(['a1', 'a2']);
});

test('where the receiver asks for less than the back-off, its other messages go when it said', async () => {
  const { timer, way, kick } = aRunner();
  await kick(from('a', 'a1'), from('a', 'a2'));
  await way.fail('a1', new DeliveryError('RECEIVER_UNAVAILABLE', 'busy', { retryAfter_ms: 300 }));
  await timer.advance(299);
  expect(way.sent).toEqual(['a1']);
  await timer.advance(1);
  expect(way.sent).toEqual(['a1', 'a2']);
});

test('a refusal is given up at the third time', async () => {
  const { outbox, timer, way, events, kick } = aRunner();
  await kick(from('a', 'a1'));
  for (let attempt = 0; attempt < 3; attempt += 1) {
    await way.fail('a1', new DeliveryError('BAD_REQUEST', 'no such page', { permanent: true }));
    await timer.advance(5000);
  }
  expect(way.sent).toHaveLength(3);
  expect(outbox.row('a1')).toMatchObject({
    state: 'given up',
    error: 'refused 3 times, the last time: no such page',
  });
  expect(events.map(({ type }) => type)).toEqual(['failed', 'failed', 'given-up']);
});

test('after seven days of trying a message is given up', async () => {
  const failing: Way = { name: 'webhook', send: () => Promise.reject(new Error('down')) };
  const { outbox, timer, kick } = aRunner([failing]);
  await kick(from('a', 'a1'));
  await timer.advance(7 * 24 * HOUR_ms - HOUR_ms);
  expect(outbox.states).toEqual({ a1: 'waiting' });
  await timer.advance(2 * HOUR_ms);
  expect(outbox.states).toEqual({ a1: 'given up' });
  expect(timer.waits_ms).toEqual([]);
});

test.each(['pigeon', '', 'toString', '__proto__'])(
  'a message by the unknown way "%s" is given up',
  async (via) => {
    const { outbox, way, kick } = aRunner();
    await kick(aMessage({ key: 'x', via, createdAt: NOW }));
    expect(outbox.row('x')).toMatchObject({
      state: 'given up',
      error: `expected via to be one of webhook, got ${via}`,
    });
    expect(way.sent).toEqual([]);
  },
);

test('a way that throws at once is a way that failed', async () => {
  const throwing: Way = {
    name: 'webhook',
    send: () => {
      throw new Error('at once');
    },
  };
  const { outbox, kick } = aRunner([throwing]);
  await kick(from('a', 'a1'));
  expect(outbox.row('a1')).toMatchObject({ state: 'waiting', error: 'at once' });
});

test('a way that hangs is given a minute, and what it says after that no longer counts', async () => {
  const { outbox, timer, way, kick } = aRunner();
  await kick(from('a', 'a1'));
  await timer.advance(RUNNER_LIMITS.send_ms);
  expect(outbox.row('a1').error).toBe('webhook: expected an end within 60000 ms, got none');
  await way.fail('a1', new Error('too late'));
  expect(outbox.row('a1')).toMatchObject({ state: 'waiting', message: { attempts: 1 } });
});
