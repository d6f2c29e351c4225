import { expect, test } from 'vitest';
import { createArchive } from '../../services/archive/index.js';
import { openStores } from '../support/open.js';

const T = Date.UTC(2026, 5, 1);

function spooling() {
  const { database, archive } = openStores();
  archive.spool.setActive(true);
  const key = archive.keys.keyOf('ridge-station', 'p01');
  return { database, key, ...archive };
}

test('a reading that is kept is noted with its values, in the order in which it came', () => {
  const { readings, spool, key } = spooling();
  readings.put(key, T + 60_000, { temperature: 21.5, battery: 3.1 });
  readings.put(key, T, { humidity: 80 });
  expect(spool.batch(0, 10)).toEqual([
    [1, key, T + 60_000, 21.5, null, 3.1, null],
    [2, key, T, null, 80, null, null],
  ]);
  expect(spool.backlog()).toEqual({ waiting: 2, oldestAt: expect.any(Number) });
});

test('a duplicate and a conflict are not noted; a value that comes later is, with all of the reading', () => {
  const { readings, spool, key } = spooling();
  readings.put(key, T, { temperature: 21.5 });
  readings.put(key, T, { temperature: 21.5 });
  readings.put(key, T, { temperature: 22 });
  readings.put(key, T, { humidity: 80 });
  expect(spool.batch(1, 10)).toEqual([[2, key, T, 21.5, 80, null, null]]);
});

test('what is rolled back is not noted', () => {
  const { database, readings, spool, key } = spooling();
  const fail = database.transaction(() => {
    readings.put(key, T, { temperature: 21.5 });
    throw new Error('full');
  });
  expect(fail).toThrow('full');
  expect(spool.backlog()).toEqual({ waiting: 0, oldestAt: null });
});

test('readings of unknown probes are not noted until they are taken in', () => {
  const { apartReadings, spool, key } = spooling();
  apartReadings.put(key, T, { temperature: 21.5 });
  expect(spool.backlog().waiting).toBe(0);
});

test('without a long archive nothing is noted and nothing waits, whatever was noted before', () => {
  const { database, spool, key } = spooling();
  spool.note(key, T);
  createArchive(database).spool.setActive(false);
  spool.note(key, T - 1);
  expect(spool.backlog().waiting).toBe(1);
  expect(spool.forwardedUpTo(key)).toBe(Number.POSITIVE_INFINITY);
});

test('what waits of a probe says how far it is forwarded, by probe', () => {
  const { spool, keys, key } = spooling();
  const other = keys.keyOf('ridge-station', 'p02');
  for (const time of [T + 2, T, T + 1]) spool.note(key, time);
  expect(spool.forwardedUpTo(key)).toBe(T);
  expect(spool.forwardedUpTo(other)).toBe(Number.POSITIVE_INFINITY);
  spool.forget(1, 2);
  expect(spool.forwardedUpTo(key)).toBe(T + 1);
  expect(spool.backlog().waiting).toBe(1);
});

test('a reading that is no longer there is given without values', () => {
  const { spool, key } = spooling();
  spool.note(key, T);
  expect(spool.batch(0, 1)).toEqual([[1, key, T, null, null, null, null]]);
});
