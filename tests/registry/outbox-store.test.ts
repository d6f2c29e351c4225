import { expect, test } from 'vitest';
import { openStores } from '../support/open.js';

const message = (key: string) => ({
  key,
  via: 'webhook',
  to: 'http://x',
  body: '{}',
  alarm: 'a1',
  event: 'raised',
});

test('a key is put on its way once', () => {
  const { outbox } = openStores().registry;
  outbox.add([message('k1'), message('k1')], 10);
  outbox.add([message('k1')], 20);
  expect(outbox.due(100, 9)).toEqual([
    { key: 'k1', via: 'webhook', to: 'http://x', body: '{}', attempts: 0, createdAt: 10 },
  ]);
});

test('what was delivered or given up is not due, what failed is due later', () => {
  const { outbox } = openStores().registry;
  outbox.add(['k1', 'k2', 'k3'].map(message), 10);
  outbox.delivered('k1', 11);
  outbox.givenUp('k2', 11, 'refused');
  outbox.failed('k3', 11, 50, 'no connection');
  expect(outbox.due(49, 9)).toEqual([]);
  expect(outbox.nextAttemptAt(11)).toBe(50);
  expect(outbox.due(50, 9)).toMatchObject([{ key: 'k3', attempts: 1 }]);
  expect(outbox.waiting()).toBe(1);
});

test('nothing waits: no next attempt', () => {
  expect(openStores().registry.outbox.nextAttemptAt(0)).toBeUndefined();
});

test('messages come in the order in which they were written', () => {
  const { outbox } = openStores().registry;
  outbox.add(['b', 'a', 'c'].map(message), 10);
  expect(outbox.due(10, 2).map(({ key }) => key)).toEqual(['b', 'a']);
});

test('how often an event was told is counted by the console', () => {
  const { outbox } = openStores().registry;
  outbox.add([message('k1'), { ...message('k2'), via: 'console' }], 10);
  expect(outbox.timesTold('a1', 'raised')).toBe(1);
  expect(outbox.timesTold('a1', 'cleared')).toBe(0);
});
