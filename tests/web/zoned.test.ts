import { expect, test } from 'vitest';
import { useZone } from '../../services/web/words/times.js';
import { zonedText, zonedTime } from '../../services/web/words/zoned.js';

test.each([
  ['Africa/Lusaka', '2026-05-04T10:00', '2026-05-04T08:00:00.000Z'],
  ['Asia/Kathmandu', '2026-05-04T00:15', '2026-05-03T18:30:00.000Z'],
  ['America/New_York', '2026-03-08T01:30', '2026-03-08T06:30:00.000Z'],
  ['America/New_York', '2026-03-08T03:30', '2026-03-08T07:30:00.000Z'],
])('in %s the clock shows %s at %s', (zone, text, time) => {
  useZone(zone);
  expect(zonedTime(text)).toBe(time);
  expect(zonedText(Date.parse(time))).toBe(text);
});

test.each(['', 'yesterday', '2026-05-04', '2026-13-40T99:00'])(
  '%j is no time, and stays what it is',
  (text) => {
    expect(zonedTime(text)).toBe(text);
  },
);
