/** Event time at the edges: RFC 3339, section 5.6. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  EARLIEST_TIME_ms,
  formatTime,
  HOUR_ms,
  hourOf,
  LATEST_TIME_ms,
  parseTime,
} from '../../../services/core/model/time.js';

describe('reading a time', () => {
  test.each([
    ['2026-05-04T08:00:00Z', Date.UTC(2026, 4, 4, 8)],
    ['2026-05-04T10:00:00+02:00', Date.UTC(2026, 4, 4, 8)],
    ['2026-05-04 08:00:00z', Date.UTC(2026, 4, 4, 8)],
    ['2026-05-04t08:00:00.25Z', Date.UTC(2026, 4, 4, 8, 0, 0, 250)],
    ['2000-01-01T00:00:00Z', EARLIEST_TIME_ms],
    ['2099-12-31T23:59:59.999Z', LATEST_TIME_ms - 1],
    ['2028-02-29T00:00:00Z', Date.UTC(2028, 1, 29)],
  ])('%s', (text, time) => {
    expect(parseTime(text)).toBe(time);
  });

  test.each([
    ['before 2000', '1999-12-31T23:59:59Z'],
    ['before 2000 by its offset', '2000-01-01T00:30:00+01:00'],
    ['from 2100 on', '2100-01-01T00:00:00Z'],
    ['no offset', '2026-05-04T08:00:00'],
    ['a date alone', '2026-05-04'],
    ['no seconds', '2026-05-04T08:00Z'],
    ['a month that is none', '2026-13-04T08:00:00Z'],
    ['a day that is none', '2026-05-32T08:00:00Z'],
    ['an hour that is none', '2026-05-04T25:00:00Z'],
    ['a 30th of February', '2026-02-30T08:00:00Z'],
    ['a 29th of February in a common year', '2026-02-29T08:00:00Z'],
    ['a 31st of June', '2026-06-31T08:00:00Z'],
    ['hour 24', '2026-05-04T24:00:00Z'],
    ['a minute that is none', '2026-05-04T08:60:00Z'],
    ['a leap second, which milliseconds do not have', '2026-06-30T23:59:60Z'],
    ['an offset that is none, after a blank', '2026-05-04 08:00:00+25:00'],
    ['a 30th of February, after a blank', '2026-02-30 08:00:00Z'],
    ['an offset that is none', '2026-05-04T08:00:00+25:00'],
    ['blanks around', ' 2026-05-04T08:00:00Z '],
    ['a line after', '2026-05-04T08:00:00Z\n'],
    ['a number', '1777881600000'],
    ['nothing', ''],
    ['NaN', 'NaN'],
  ])('%s is no time', (_, text) => {
    expect(parseTime(text)).toBeUndefined();
  });

  test('any text at all is a time within 2000 to 2100 or none', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const time = parseTime(text);
        return time === undefined || (time >= EARLIEST_TIME_ms && time < LATEST_TIME_ms);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

const times = fc.integer({ min: EARLIEST_TIME_ms, max: LATEST_TIME_ms - 1 });

describe('writing a time', () => {
  test('milliseconds only where there are any', () => {
    expect(formatTime(Date.UTC(2026, 4, 4, 8))).toBe('2026-05-04T08:00:00Z');
    expect(formatTime(Date.UTC(2026, 4, 4, 8) + 5)).toBe('2026-05-04T08:00:00.005Z');
  });
  test('what was written is read back', () => {
    fc.assert(
      fc.property(times, (time) => parseTime(formatTime(time)) === time),
      { seed: 2, numRuns: 300 },
    );
  });
});

describe('the hour of a time', () => {
  test('begins at or before it, less than an hour', () => {
    fc.assert(
      fc.property(times, (time) => {
        const hour = hourOf(time);
        return hour % HOUR_ms === 0 && hour <= time && time - hour < HOUR_ms;
      }),
      { seed: 3, numRuns: 300 },
    );
  });
  test('a whole hour is its own', () => {
    expect(hourOf(EARLIEST_TIME_ms)).toBe(EARLIEST_TIME_ms);
  });
});
