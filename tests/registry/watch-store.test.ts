import { expect, test } from 'vitest';
import { DAY_ms } from '../../services/core/model/time.js';
import { openStores } from '../support/open.js';

test('a mark comes back as it was set', () => {
  const { watch } = openStores().registry;
  const mark = { version: 'v1', begunAt: 1, judgedTo: 2, dirtyFrom: null };
  watch.setMark('pit-a', mark);
  expect(watch.mark('pit-a')).toEqual(mark);
  expect(watch.mark('pit-b')).toBeUndefined();
});

test('the newest state at or before a time is given', () => {
  const { watch } = openStores().registry;
  for (const day of [1, 2, 3]) watch.keepCheckpoint('pit-a', { hour: day * DAY_ms, state: `s${day}` });
  expect(watch.checkpoint('pit-a', 2.5 * DAY_ms)?.state).toBe('s2');
  expect(watch.checkpoint('pit-a', DAY_ms - 1)).toBeUndefined();
});

test('states that rest on what changed are dropped', () => {
  const { watch } = openStores().registry;
  for (const day of [1, 2, 3]) watch.keepCheckpoint('pit-a', { hour: day * DAY_ms, state: `s${day}` });
  watch.dropCheckpointsAfter('pit-a', 2 * DAY_ms);
  expect(watch.checkpoint('pit-a', 9 * DAY_ms)?.state).toBe('s2');
});

test('of a season few states are kept: the last days, and one in eight before', () => {
  const { watch, database } = (() => {
    const stores = openStores();
    return { watch: stores.registry.watch, database: stores.database };
  })();
  for (let day = 1; day <= 150; day += 1) watch.keepCheckpoint('pit-a', { hour: day * DAY_ms, state: '{}' });
  const kept = database.prepare('SELECT hour FROM watch_checkpoint ORDER BY hour').pluck().all() as number[];
  expect(kept.length).toBeLessThanOrEqual(30);
  expect(kept.slice(-8)).toEqual([143, 144, 145, 146, 147, 148, 149, 150].map((day) => day * DAY_ms));
});
