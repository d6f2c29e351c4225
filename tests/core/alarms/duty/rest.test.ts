/** Quiet hours and mornings over changes of the clock; the changes are those of the test of the clock. */
import { describe, expect, test } from 'vitest';
import { localClock } from '../../../../services/core/alarms/duty/local-clock.js';
import { type Rest, restOf } from '../../../../services/core/alarms/duty/rest.js';

const at = (text: string): number => Date.parse(text);
const utc = (time: number | undefined): string | undefined =>
  time === undefined ? undefined : new Date(time).toISOString().slice(0, 16);
const rest = (zone: string, from: string, to: string, morning = '06:30'): Rest =>
  restOf(localClock(zone), { from, to }, morning);

describe('quiet hours', () => {
  test.each([
    ['before they begin', '2026-06-01T17:59:59.999Z', undefined],
    ['as they begin', '2026-06-01T18:00:00Z', '2026-06-02T04:00'],
    ['after midnight', '2026-06-01T23:00:00Z', '2026-06-02T04:00'],
    ['at their last instant', '2026-06-02T03:59:59.999Z', '2026-06-02T04:00'],
    ['as they end', '2026-06-02T04:00:00Z', undefined],
  ])('over midnight, %s', (_, time, end) => {
    expect(utc(rest('Africa/Lusaka', '20:00', '06:00').quietUntil(at(time)))).toBe(end);
  });
  test('within one day', () => {
    const noon = rest('Africa/Lusaka', '12:00', '14:00');
    expect(utc(noon.quietUntil(at('2026-06-01T11:00:00Z')))).toBe('2026-06-01T12:00');
    expect(noon.quietUntil(at('2026-06-01T12:00:00Z'))).toBeUndefined();
    expect(noon.quietUntil(at('2026-06-01T22:00:00Z'))).toBeUndefined();
  });
  test('an end that the clock jumps over is the jump', () => {
    const quiet = rest('Europe/Berlin', '22:00', '02:30');
    expect(utc(quiet.quietUntil(at('2026-03-29T00:59:00Z')))).toBe('2026-03-29T01:00');
    expect(quiet.quietUntil(at('2026-03-29T01:00:00Z'))).toBeUndefined();
  });
  test('an end that is there twice is the second', () => {
    const quiet = rest('Europe/Berlin', '22:00', '02:30');
    expect(utc(quiet.quietUntil(at('2026-10-25T00:45:00Z')))).toBe('2026-10-25T01:30');
    expect(quiet.quietUntil(at('2026-10-25T01:30:00Z'))).toBeUndefined();
  });
  test('by half an hour on Lord Howe Island', () => {
    const quiet = rest('Australia/Lord_Howe', '21:00', '01:45');
    expect(utc(quiet.quietUntil(at('2026-04-04T14:50:00Z')))).toBe('2026-04-04T15:15');
  });
  test('a beginning that is there twice is the first, and they stay begun', () => {
    const quiet = rest('Europe/Berlin', '02:30', '09:00');
    expect(utc(quiet.quietUntil(at('2026-10-25T00:30:00Z')))).toBe('2026-10-25T08:00');
    expect(utc(quiet.quietUntil(at('2026-10-25T01:10:00Z')))).toBe('2026-10-25T08:00');
  });
  test('an open hour that does not exist leaves the day quiet', () => {
    const quiet = rest('Europe/Berlin', '03:00', '02:00');
    expect(utc(quiet.quietUntil(at('2026-03-28T12:00:00Z')))).toBe('2026-03-30T00:00');
  });
});

describe('mornings', () => {
  const early = rest('Africa/Casablanca', '22:00', '05:00');
  test.each([
    ['the same day', '2026-02-14T03:00:00Z', '2026-02-14T05:30'],
    ['at the morning itself', '2026-02-14T05:30:00Z', '2026-02-14T05:30'],
    ['the next day, which is the first of the other offset', '2026-02-14T05:30:00.001Z', '2026-02-15T06:30'],
    ['back again', '2026-03-21T12:00:00Z', '2026-03-22T05:30'],
  ])('from a time: %s', (_, time, morning) => {
    expect(utc(early.morningFrom(at(time)))).toBe(morning);
  });
  test('before a time', () => {
    expect(utc(early.morningBefore(at('2026-02-14T05:30:00Z')))).toBe('2026-02-14T05:30');
    expect(utc(early.morningBefore(at('2026-02-14T05:29:59Z')))).toBe('2026-02-13T05:30');
  });
  test('whoever has quiet hours at the time is told at their end', () => {
    const late = rest('Africa/Lusaka', '23:00', '08:15');
    expect(utc(late.morningFrom(at('2026-06-01T05:00:00Z')))).toBe('2026-06-01T06:15');
  });
  test('whoever rests by day is told in the morning all the same', () => {
    const watchman = rest('Africa/Lusaka', '09:00', '16:00');
    expect(utc(watchman.morningFrom(at('2026-06-01T00:00:00Z')))).toBe('2026-06-01T04:30');
  });
  test('a morning that does not exist is the jump', () => {
    const owl = restOf(localClock('Europe/Berlin'), undefined, '02:30');
    expect(utc(owl.morningFrom(at('2026-03-28T12:00:00Z')))).toBe('2026-03-29T01:00');
  });
  test.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('%d is refused', (time) => {
    expect(() => early.morningFrom(time)).toThrow(/time, ms must be in/);
    expect(() => early.morningBefore(time)).toThrow(/time, ms must be in/);
  });
  test.each(['6:30', '24:00', ''])('the morning %j is refused', (morning) => {
    expect(() => restOf(localClock('UTC'), undefined, morning)).toThrow(/morning/);
  });
});
