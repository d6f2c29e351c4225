import { expect, test } from 'vitest';
import type { Episode } from '../../services/core/model/alarm.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { LONGEST_CHECKPOINT_bytes } from '../../services/core/watch/watch.js';
import { openStores } from '../support/open.js';

const stateOf = (day: number) => ({ hour: day * DAY_ms, state: `s${day}`, open: [] });

test('a mark comes back as it was set', () => {
  const { watch } = openStores().registry;
  const mark = { version: 'v1', begunAt: 1, judgedTo: 2, dirtyFrom: null };
  watch.setMark('pit-a', mark);
  expect(watch.mark('pit-a')).toEqual(mark);
  expect(watch.mark('pit-b')).toBeUndefined();
  const run = {
    start: 1,
    since: 0,
    begunAt: 1,
    open: [],
    again: true,
    position: 2,
    changes: [],
    changedFrom: null,
  };
  watch.setRun('pit-a', run);
  watch.setMark('pit-a', { ...mark, dirtyFrom: 1 });
  expect(watch.mark('pit-a')).toEqual({ ...mark, dirtyFrom: 1, run });
  watch.setRun('pit-a', undefined);
  expect(watch.mark('pit-a')?.run).toBeUndefined();
});

test('the newest state at or before a time is given', () => {
  const { watch } = openStores().registry;
  for (const day of [1, 2, 3]) watch.keepCheckpoint('pit-a', stateOf(day));
  expect(watch.checkpoint('pit-a', 2.5 * DAY_ms)?.state).toBe('s2');
  expect(watch.checkpoint('pit-a', DAY_ms - 1)).toBeUndefined();
});

test('states that rest on what changed are dropped', () => {
  const { watch } = openStores().registry;
  for (const day of [1, 2, 3]) watch.keepCheckpoint('pit-a', stateOf(day));
  watch.dropCheckpointsAfter('pit-a', 2 * DAY_ms);
  expect(watch.checkpoint('pit-a', 9 * DAY_ms)?.state).toBe('s2');
});

function daysKept(days: number): number[] {
  const { registry, database } = openStores();
  for (let day = 1; day <= days; day += 1) registry.watch.keepCheckpoint('pit-a', stateOf(day));
  const kept = database.prepare('SELECT hour FROM watch_checkpoint ORDER BY hour').pluck().all() as number[];
  return kept.map((hour) => hour / DAY_ms);
}

test('of a season few states are kept: three days, then one in eight, then one in thirty', () => {
  expect(daysKept(150)).toEqual([30, 60, 90, 112, 120, 128, 136, 144, 148, 149, 150]);
});

test('at most 21 states are kept at any day of the first year', () => {
  const { registry, database } = openStores();
  const count = database.prepare('SELECT count(*) FROM watch_checkpoint').pluck();
  let most = 0;
  for (let day = 1; day <= 365; day += 1) {
    registry.watch.keepCheckpoint('pit-a', stateOf(day));
    most = Math.max(most, count.get() as number);
  }
  expect(most).toBeLessThanOrEqual(21);
});

test('the states of one bed do not thin those of another', () => {
  const { watch } = openStores().registry;
  watch.keepCheckpoint('pit-b', stateOf(1));
  watch.keepCheckpoint('pit-a', stateOf(99));
  expect(watch.checkpoint('pit-b', 99 * DAY_ms)?.state).toBe('s1');
});

test('a state longer than it may be is not kept, one as long is', () => {
  const { watch } = openStores().registry;
  watch.keepCheckpoint('pit-a', { ...stateOf(1), state: 'x'.repeat(LONGEST_CHECKPOINT_bytes) });
  watch.keepCheckpoint('pit-a', { ...stateOf(2), state: 'x'.repeat(LONGEST_CHECKPOINT_bytes + 1) });
  expect(watch.checkpoint('pit-a', 9 * DAY_ms)?.hour).toBe(DAY_ms);
});

test('a state comes back with the alarms that were open by then', () => {
  const { watch } = openStores().registry;
  const open: Episode[] = [
    {
      ...{ bed: 'pit-a', kind: 'heating', priority: 'high', action: 'unpack', subject: '' },
      ...{ raisedAt: 5, clearedAt: null, evidence: { excess_C: 2 } },
      place: { x: 1, y: 2, depth: 3, radius: 4 },
    },
  ];
  watch.keepCheckpoint('pit-a', { ...stateOf(1), open });
  expect(watch.checkpoint('pit-a', DAY_ms)).toEqual({ ...stateOf(1), open });
});
