/**
 * Clocks that are put forward and back. Offsets and days of change: IANA time zone database, release 2025c, as
 * published for 2026; they are written out here and not computed.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { localClock } from '../../../../services/core/alarms/duty/local-clock.js';
import { DAY_ms } from '../../../../services/core/model/time.js';

const at = (text: string): number => Date.parse(text);
const day = (text: string): number => at(`${text}T00:00:00Z`) / DAY_ms;
const minutes = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3));
const utc = (time: number): string => new Date(time).toISOString();

describe('a time that exists once', () => {
  test.each([
    ['Africa/Lusaka', '2026-06-01', '06:30', '2026-06-01T04:30:00.000Z'], // +02:00
    ['Asia/Kolkata', '2026-06-01', '06:30', '2026-06-01T01:00:00.000Z'], // +05:30
    ['Asia/Kathmandu', '2026-06-01', '06:30', '2026-06-01T00:45:00.000Z'], // +05:45
    ['Australia/Lord_Howe', '2026-06-01', '06:30', '2026-05-31T20:00:00.000Z'], // +10:30
    ['Australia/Lord_Howe', '2026-12-01', '06:30', '2026-11-30T19:30:00.000Z'], // +11:00
    ['Pacific/Kiritimati', '2026-06-01', '06:30', '2026-05-31T16:30:00.000Z'], // +14:00
    ['Pacific/Pago_Pago', '2026-06-01', '06:30', '2026-06-01T17:30:00.000Z'], // -11:00
    ['Africa/Casablanca', '2026-02-14', '06:30', '2026-02-14T05:30:00.000Z'], // +01:00
    ['Africa/Casablanca', '2026-03-01', '06:30', '2026-03-01T06:30:00.000Z'], // Ramadan: +00:00
    ['Africa/Casablanca', '2026-03-23', '06:30', '2026-03-23T05:30:00.000Z'], // +01:00 again
  ])('%s %s %s', (zone, date, clock, expected) => {
    expect(utc(localClock(zone).firstAt(day(date), minutes(clock)))).toBe(expected);
    expect(utc(localClock(zone).lastAt(day(date), minutes(clock)))).toBe(expected);
  });
});

describe('a time that does not exist is the instant of the jump over it', () => {
  test.each([
    ['Europe/Berlin', '2026-03-29', '02:30', '2026-03-29T01:00:00.000Z'],
    ['Africa/Casablanca', '2026-03-22', '02:30', '2026-03-22T02:00:00.000Z'],
    ['Australia/Lord_Howe', '2026-10-04', '02:15', '2026-10-03T15:30:00.000Z'], // half an hour
    ['America/Havana', '2026-03-08', '00:00', '2026-03-08T05:00:00.000Z'], // the day begins at 01:00
    ['Africa/Cairo', '2026-04-24', '00:30', '2026-04-23T22:00:00.000Z'],
    ['Pacific/Apia', '2011-12-30', '06:30', '2011-12-30T10:00:00.000Z'], // a day that was left out
  ])('%s %s %s', (zone, date, clock, expected) => {
    expect(utc(localClock(zone).firstAt(day(date), minutes(clock)))).toBe(expected);
    expect(utc(localClock(zone).lastAt(day(date), minutes(clock)))).toBe(expected);
  });
});

describe('a time that exists twice', () => {
  test.each([
    ['Europe/Berlin', '2026-10-25', '02:30', '2026-10-25T00:30:00.000Z', '2026-10-25T01:30:00.000Z'],
    ['Africa/Casablanca', '2026-02-15', '02:30', '2026-02-15T01:30:00.000Z', '2026-02-15T02:30:00.000Z'],
    ['Australia/Lord_Howe', '2026-04-05', '01:45', '2026-04-04T14:45:00.000Z', '2026-04-04T15:15:00.000Z'],
    ['Africa/Cairo', '2026-10-29', '23:30', '2026-10-29T20:30:00.000Z', '2026-10-29T21:30:00.000Z'],
  ])('%s %s %s', (zone, date, clock, first, last) => {
    expect(utc(localClock(zone).firstAt(day(date), minutes(clock)))).toBe(first);
    expect(utc(localClock(zone).lastAt(day(date), minutes(clock)))).toBe(last);
  });
});

test('the day of a time is the one on the wall', () => {
  expect(localClock('Africa/Lusaka').dayOf(at('2026-06-01T21:59:59.999Z'))).toBe(day('2026-06-01'));
  expect(localClock('Africa/Lusaka').dayOf(at('2026-06-01T22:00:00Z'))).toBe(day('2026-06-02'));
  expect(localClock('America/Havana').dayOf(at('2026-03-08T05:00:00Z'))).toBe(day('2026-03-08'));
});

test.each(['Africa/Nowhere', '', 'Africa/Lusaka ', '+25:00'])('%j is refused', (zone) => {
  expect(() => localClock(zone)).toThrow(/time zone: expected an IANA name, got/);
});

test('what the clock shows lies on its day, and first is never after last', () => {
  const zones = fc.constantFrom(
    ...['Africa/Lusaka', 'Europe/Berlin', 'Africa/Casablanca', 'Australia/Lord_Howe', 'Africa/Cairo'],
  );
  fc.assert(
    fc.property(
      zones,
      fc.integer({ min: day('2024-01-01'), max: day('2030-01-01') }),
      fc.integer({ min: 0, max: 1439 }),
      (zone, date, minute) => {
        const clock = localClock(zone);
        const [first, last] = [clock.firstAt(date, minute), clock.lastAt(date, minute)];
        expect(first <= last).toBe(true);
        expect([date, date]).toEqual([clock.dayOf(first), clock.dayOf(last)]);
      },
    ),
    { seed: 11, numRuns: 300 },
  );
});
