import { describe, expect, test } from 'vitest';
import { PARAMETERS } from '../../../services/core/watch/parameters.js';
import { AT_REST, nextHour, type Persistence } from '../../../services/core/watch/persistence.js';

const ABOVE = { above: true, below: false };
const BETWEEN = { above: false, below: false };
const BELOW = { above: false, below: true };
const HOLD_h = 6;

type Hour = typeof ABOVE | undefined;

const lived = (hours: readonly Hour[], state: Persistence = AT_REST): Persistence =>
  hours.reduce((before, hour) => nextHour(before, hour, HOLD_h), Object.freeze({ ...state }));
const times = (count: number, hour: Hour): Hour[] => Array.from({ length: count }, () => hour);
const OPEN = lived(times(HOLD_h, ABOVE));

describe('raising', () => {
  test('opens in the hour in which it has held long enough, not before', () => {
    expect(lived(times(HOLD_h - 1, ABOVE)).open).toBe(false);
    expect(lived(times(HOLD_h, ABOVE)).open).toBe(true);
  });
  test('a short dip does not break it off and does not count', () => {
    const dipped = [...times(3, ABOVE), ...times(PARAMETERS.dip_h, BETWEEN), ...times(2, ABOVE)];
    expect(lived(dipped).open).toBe(false);
    expect(lived([...dipped, ABOVE]).open).toBe(true);
  });
  test('a longer dip does break it off', () => {
    const dipped = [...times(5, ABOVE), ...times(PARAMETERS.dip_h + 1, BETWEEN), ...times(5, ABOVE)];
    expect(lived(dipped).open).toBe(false);
  });
  test('hours without data do not count', () => {
    expect(lived([...times(5, ABOVE), ...times(10, undefined)]).open).toBe(false);
    expect(lived([...times(5, ABOVE), ...times(10, undefined), ABOVE]).open).toBe(true);
  });
  test('after a long gap it begins anew', () => {
    const gap = times(PARAMETERS.gap_h + 1, undefined);
    expect(lived([...times(5, ABOVE), ...gap, ...times(5, ABOVE)]).open).toBe(false);
  });
});

describe('clearing', () => {
  test('after 24 h in a row below the clearing level', () => {
    expect(lived(times(PARAMETERS.clear_h - 1, BELOW), OPEN).open).toBe(true);
    expect(lived(times(PARAMETERS.clear_h, BELOW), OPEN)).toEqual(AT_REST);
  });
  test('never between the two levels', () => {
    expect(lived(times(1000, BETWEEN), OPEN).open).toBe(true);
  });
  test('never for lack of data', () => {
    expect(lived(times(1000, undefined), OPEN).open).toBe(true);
  });
  test('an hour above the level begins the count anew', () => {
    const broken = [...times(20, BELOW), BETWEEN, ...times(20, BELOW)];
    expect(lived(broken, OPEN).open).toBe(true);
  });
  test('a gap longer than a day begins the count anew', () => {
    const broken = [...times(20, BELOW), ...times(PARAMETERS.gap_h + 1, undefined), ...times(20, BELOW)];
    expect(lived(broken, OPEN).open).toBe(true);
  });
});
