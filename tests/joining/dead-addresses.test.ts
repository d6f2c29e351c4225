import { expect, test } from 'vitest';
import { HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { deadAddressProblems, stuckAddresses } from '../../services/joining/dead-addresses.js';
import { openStores } from '../support/open.js';

const NOW = Date.UTC(2026, 5, 1);
const message = (key: string, to: string, via = 'sms') => ({
  ...{ key, via, to, body: 'x', alarm: 'a1', event: 'raised' },
});

const opened = (...messages: ReturnType<typeof message>[]) => {
  const { registry } = openStores();
  registry.outbox.add(messages, NOW);
  return registry;
};

test('an address is dead where a message was tried three times in a quarter of an hour, until it arrives', () => {
  const registry = opened(message('k1', '+260970000001'));
  for (const minute of [1, 5]) registry.outbox.failed('k1', NOW + minute * MINUTE_ms, NOW, 'busy');
  expect(stuckAddresses(registry, NOW + HOUR_ms)).toEqual([]);
  registry.outbox.failed('k1', NOW + 10 * MINUTE_ms, NOW, 'busy');
  expect(stuckAddresses(registry, NOW + 14 * MINUTE_ms)).toEqual([]);
  expect(stuckAddresses(registry, NOW + 15 * MINUTE_ms)).toEqual([{ via: 'sms', to: '+260970000001' }]);
  expect(deadAddressProblems(registry, NOW + HOUR_ms)).toEqual([
    'messages by sms do not arrive at 1 address: the log says why',
  ]);
  registry.outbox.delivered('k1', NOW + HOUR_ms);
  expect(deadAddressProblems(registry, NOW + HOUR_ms)).toEqual([]);
});

test('one whose messages were refused is trouble for a day, or until one arrives; no address is named', () => {
  const registry = opened(
    message('k1', '+260970000001'),
    message('k2', '+260970000002'),
    message('k3', 'a@b', 'email'),
  );
  registry.outbox.givenUp('k1', NOW, 'refused');
  registry.outbox.givenUp('k2', NOW, 'refused');
  registry.outbox.delivered('k3', NOW);
  expect(deadAddressProblems(registry, NOW)).toEqual([
    'messages by sms do not arrive at 2 addresses: the log says why',
  ]);
  registry.outbox.add([message('k4', '+260970000002')], NOW + 1);
  registry.outbox.delivered('k4', NOW + 2);
  expect(deadAddressProblems(registry, NOW + 3)).toEqual([
    'messages by sms do not arrive at 1 address: the log says why',
  ]);
  expect(deadAddressProblems(registry, NOW + 25 * HOUR_ms)).toEqual([]);
});

test('who asked that messages stop is no trouble', () => {
  const registry = opened(message('k1', '+260970000001'));
  registry.outbox.givenUp('k1', NOW, 'stopped');
  registry.answers.stop('sms', '+260970000001', NOW);
  expect(deadAddressProblems(registry, NOW)).toEqual([]);
});
