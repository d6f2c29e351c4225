import { describe, expect, test } from 'vitest';
import { graverAfter } from '../../services/web/alarm/alarm-words.js';
import type { Alarm } from '../../services/web/api/types/alarm.js';

const RAISED = '2026-08-01T03:00:00Z';
const WORSE = '2026-08-03T03:00:00Z';

const damp = {
  ...{ id: 'one', bed: 'pit-c', kind: 'damp', action: 'check', raisedAt: RAISED, clearedAt: WORSE },
} as Alarm;
const after = { ...damp, id: 'two', action: 'unpack', raisedAt: WORSE, clearedAt: null } as Alarm;

describe('an alarm that ended as a graver one of its kind began', () => {
  test('is followed by that', () => {
    expect(graverAfter(damp, [damp, after])?.id).toBe('two');
  });

  test.each([
    ['is open', { ...damp, clearedAt: null }, after],
    ['was of another bed', damp, { ...after, bed: 'pit-a' }],
    ['was of another kind', damp, { ...after, kind: 'heating' }],
    ['began at another time', damp, { ...after, raisedAt: RAISED }],
    ['is no graver', damp, { ...after, action: 'check' }],
  ])('not where it %s', (_, one, other) => {
    expect(graverAfter(one as Alarm, [other as Alarm])).toBeUndefined();
  });
});
