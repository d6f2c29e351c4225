import { describe, expect, test } from 'vitest';
import {
  DAY_ms,
  HOUR_ms,
  lengthNamed,
  lengthOf,
  moved,
  ofLength,
  type Span,
  within,
  zoomed,
} from '../../../services/web/bed/series/span.js';

const WHOLE: Span = { from: 0, to: 100 * DAY_ms };
const WEEK: Span = { from: 50 * DAY_ms, to: 57 * DAY_ms };

describe('a span', () => {
  test.each([
    [
      { from: -5 * DAY_ms, to: 2 * DAY_ms },
      { from: 0, to: 7 * DAY_ms },
    ],
    [
      { from: 99 * DAY_ms, to: 106 * DAY_ms },
      { from: 93 * DAY_ms, to: 100 * DAY_ms },
    ],
    [{ from: -5 * DAY_ms, to: 200 * DAY_ms }, WHOLE],
    [WEEK, WEEK],
  ])('%j is kept within the season', (span, kept) => {
    expect(within(span, WHOLE)).toEqual(kept);
  });

  test('is moved by its own length, and stops at the ends', () => {
    expect(moved(WEEK, 1, WHOLE)).toEqual({ from: 57 * DAY_ms, to: 64 * DAY_ms });
    expect(moved(WEEK, -100, WHOLE)).toEqual({ from: 0, to: 7 * DAY_ms });
    expect(moved(WEEK, 100, WHOLE)).toEqual({ from: 93 * DAY_ms, to: 100 * DAY_ms });
  });

  test('is zoomed about a time, which stays where it is', () => {
    const at = 52 * DAY_ms;
    const closer = zoomed(WEEK, 0.5, at, WHOLE);
    expect(lengthOf(closer)).toBeCloseTo(3.5 * DAY_ms);
    expect((at - closer.from) / lengthOf(closer)).toBeCloseTo(2 / 7);
  });

  test('is never shorter than three hours, nor longer than the season', () => {
    expect(lengthOf(zoomed(WEEK, 1e-6, 52 * DAY_ms, WHOLE))).toBe(3 * HOUR_ms);
    expect(zoomed(WEEK, 1e6, 52 * DAY_ms, WHOLE)).toEqual(WHOLE);
    const short = { from: 0, to: HOUR_ms };
    expect(zoomed(short, 0.1, 0, short)).toEqual(short);
  });

  test('of a button keeps the newest in sight where it was, else the middle', () => {
    expect(ofLength('day', WHOLE, WHOLE)).toEqual({ from: 99 * DAY_ms, to: 100 * DAY_ms });
    const day = ofLength('day', WEEK, WHOLE);
    expect((day.from + day.to) / 2).toBe(53.5 * DAY_ms);
    expect(ofLength('season', WEEK, WHOLE)).toEqual(WHOLE);
    expect(ofLength('month', WEEK, { from: 50 * DAY_ms, to: 60 * DAY_ms })).toEqual({
      ...{ from: 50 * DAY_ms, to: 60 * DAY_ms },
    });
  });

  test('is told by its button, or by none', () => {
    expect(lengthNamed(WEEK, WHOLE)).toBe('week');
    expect(lengthNamed(WHOLE, WHOLE)).toBe('season');
    expect(lengthNamed({ from: 0, to: 5 * DAY_ms }, WHOLE)).toBeUndefined();
  });
});
