import fc from 'fast-check';
import { expect, test } from 'vitest';
import { byUrgency, mostUrgent } from '../../../services/core/alarms/urgency.js';
import { ACTIONS, PRIORITIES } from '../../../services/core/model/alarm.js';
import { anAlarm } from './an-alarm.js';

test('what is to be done comes before the priority', () => {
  const unpack = anAlarm({ id: 'a', action: 'unpack', priority: 'low', raisedAt: 1 });
  const check = anAlarm({ id: 'b', action: 'check', priority: 'high', raisedAt: 2 });
  expect(mostUrgent([check, unpack])).toBe(unpack);
});

test('the priority comes before the age', () => {
  const high = anAlarm({ id: 'a', priority: 'high', raisedAt: 1 });
  const low = anAlarm({ id: 'b', priority: 'low', raisedAt: 2 });
  expect(mostUrgent([low, high])).toBe(high);
});

test('of equals the newest comes first, then the id decides', () => {
  const old = anAlarm({ id: 'a', raisedAt: 1 });
  const newer = anAlarm({ id: 'c', raisedAt: 2 });
  const alike = anAlarm({ id: 'b', raisedAt: 2 });
  expect([old, newer, alike].sort(byUrgency)).toEqual([alike, newer, old]);
});

test('a cleared alarm is not urgent, an acknowledged one still is', () => {
  const cleared = anAlarm({ id: 'a', clearedAt: 5 });
  const acknowledged = anAlarm({ id: 'b', action: 'service', state: 'acknowledged' });
  expect(mostUrgent([cleared, acknowledged])).toBe(acknowledged);
  expect(mostUrgent([cleared])).toBeUndefined();
  expect(mostUrgent([])).toBeUndefined();
});

test('the order in which alarms come does not matter, and they are left as they were', () => {
  const some = fc.uniqueArray(
    fc
      .record({
        id: fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f'),
        action: fc.constantFrom(...ACTIONS),
        priority: fc.constantFrom(...PRIORITIES),
        raisedAt: fc.integer({ min: 1, max: 3 }),
        clearedAt: fc.constantFrom(null, 9),
      })
      .map(anAlarm),
    { selector: ({ id }) => id },
  );
  fc.assert(
    fc.property(some, (alarms) => {
      const turned = Object.freeze([...alarms].reverse());
      expect(mostUrgent(turned)).toBe(mostUrgent(Object.freeze(alarms)));
    }),
    { seed: 3 },
  );
});
