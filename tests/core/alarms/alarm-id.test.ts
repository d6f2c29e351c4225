import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ALARM_ID_LENGTH, alarmId, requireId } from '../../../services/core/alarms/alarm-id.js';
import { ACTIONS, ALARM_KINDS } from '../../../services/core/model/alarm.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms } from '../../../services/core/model/time.js';
import { anAlarm, at } from './an-alarm.js';

test('an alarm is named by site, bed, kind, action and event time', () => {
  expect(alarmId('ridge-station', anAlarm())).toBe('ridge-station.pit-a.heating.unpack.20260524T150000Z');
});

test('milliseconds are part of the name where there are any', () => {
  const id = alarmId('ridge-station', anAlarm({ raisedAt: at('2026-05-24T15:00:00.120Z') }));
  expect(id).toBe('ridge-station.pit-a.heating.unpack.20260524T150000.120Z');
});

test('one that is about a probe names it before the time', () => {
  const alarm = anAlarm({ kind: 'probe-fault', action: 'service', subject: 'p03' });
  expect(alarmId('ridge-station', alarm)).toBe(
    'ridge-station.pit-a.probe-fault.service.p03.20260524T150000Z',
  );
});

const anId = fc.stringMatching(/^[a-z0-9][a-z0-9-]{0,31}$/);
const anEpisode = fc.record({
  bed: anId,
  kind: fc.constantFrom(...ALARM_KINDS),
  action: fc.constantFrom(...ACTIONS),
  subject: fc.oneof(fc.constant(''), anId),
  raisedAt: fc.integer({ min: EARLIEST_TIME_ms, max: LATEST_TIME_ms - 1 }),
});

test('every name fits an address as it stands and is short enough', () => {
  fc.assert(
    fc.property(anId, anEpisode, (site, episode) => {
      const id = alarmId(site, episode);
      expect(id.length).toBeLessThanOrEqual(ALARM_ID_LENGTH);
      expect(encodeURIComponent(id)).toBe(id);
    }),
    { seed: 11 },
  );
});

test('two names are equal only where all six parts are', () => {
  // Few values, so that equal and nearly equal parts come up often.
  const fewIds = fc.constantFrom('a', 'b', 'a-b', 'a--b');
  const few = fc.record({
    bed: fewIds,
    kind: fc.constantFrom('damp' as const, 'heating' as const),
    action: fc.constantFrom('unpack' as const, 'check' as const),
    subject: fc.constantFrom('', 'a', '20260524t150000'),
    raisedAt: fc.constantFrom(at('2026-05-24T15:00:00Z'), at('2026-05-24T15:00:00.001Z')),
  });
  fc.assert(
    fc.property(fewIds, few, fewIds, few, (site, one, otherSite, other) => {
      const equal = JSON.stringify([site, one]) === JSON.stringify([otherSite, other]);
      expect(alarmId(site, one) === alarmId(otherSite, other)).toBe(equal);
    }),
    { seed: 12, numRuns: 2000 },
  );
});

test.each([
  ['a dot', 'pit.a'],
  ['a slash', 'pit/a'],
  ['a wildcard', '+'],
  ['a capital', 'Pit'],
  ['nothing', ''],
  ['33 characters', 'a'.repeat(33)],
])('a bed id with %s is refused', (_, bed) => {
  expect(() => alarmId('ridge-station', anAlarm({ bed }))).toThrow(
    expect.objectContaining({ code: 'OUT_OF_DOMAIN', message: expect.stringContaining('bed must match') }),
  );
  expect(() => requireId('site', bed)).toThrow(/site must match/);
});

test.each(['a.b', 'P01', ' ', 'a'.repeat(33)])('the subject %j is refused', (subject) => {
  expect(() => alarmId('ridge-station', anAlarm({ subject }))).toThrow(
    expect.objectContaining({
      code: 'OUT_OF_DOMAIN',
      message: expect.stringContaining('subject must match'),
    }),
  );
});

test('the longest name is as long as is said', () => {
  const id = 'a'.repeat(32);
  const longest = anAlarm({ bed: id, kind: 'inspection-due', action: 'service', subject: id });
  expect(alarmId(id, { ...longest, raisedAt: at('2026-05-24T15:00:00.120Z') })).toHaveLength(142);
});

test.each([
  Number.NaN,
  Number.POSITIVE_INFINITY,
  EARLIEST_TIME_ms - 1,
  LATEST_TIME_ms,
  EARLIEST_TIME_ms + 0.5,
])('the time %d is refused', (raisedAt) => {
  expect(() => alarmId('ridge-station', anAlarm({ raisedAt }))).toThrow(
    expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
  );
});
