import { expect, test } from 'vitest';
import { alarmDocument } from '../../../services/core/alarms/document.js';
import { anAlarm, at } from './an-alarm.js';

test('an alarm is written as the contract has it, key by key in its order', () => {
  expect(JSON.stringify(alarmDocument(anAlarm()))).toBe(
    '{"id":"ridge-station.pit-a.heating.unpack.20260524T150000Z","site":"ridge-station","bed":"pit-a",' +
      '"kind":"heating","priority":"high","state":"unacknowledged","raisedAt":"2026-05-24T15:00:00Z",' +
      '"clearedAt":null,"action":"unpack",' +
      '"evidence":{"probe":"p01","excess_C":1.8,"rate_C_per_day":0.6},' +
      '"place":{"x":80,"y":35,"depth":40,"radius":15},"text":"Pit A: sand 1.8 C too warm."}',
  );
});

test('a cleared alarm without a place has its time and null', () => {
  const document = alarmDocument(anAlarm({ clearedAt: at('2026-05-26T03:00:00Z'), place: null }));
  expect(document).toMatchObject({ clearedAt: '2026-05-26T03:00:00Z', place: null });
});

test('an alarm cleared at the very beginning of the epoch is cleared', () => {
  expect(alarmDocument(anAlarm({ clearedAt: 0 })).clearedAt).toBe('1970-01-01T00:00:00Z');
});

test('the order in which a place was built does not show', () => {
  const place = { radius: 15, depth: 40, y: 35, x: 80 };
  expect(JSON.stringify(alarmDocument(anAlarm({ place })))).toBe(JSON.stringify(alarmDocument(anAlarm())));
});
