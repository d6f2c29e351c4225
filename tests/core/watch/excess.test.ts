/** Which comparisons decide, and when they must agree. */
import { describe, expect, test } from 'vitest';
import { excessOf, type Present } from '../../../services/core/watch/excess.js';
import { asked_C, rate_C_per_day } from '../../../services/core/watch/heating.js';
import { PARAMETERS } from '../../../services/core/watch/parameters.js';
import { MEMORIES_days } from '../../../services/core/watch/slow-mean.js';
import type { Baseline } from '../../../services/core/watch/state.js';

const level = (middle: number, deviation = 0.05) => ({ middle, deviation });
const SHADE_C = MEMORIES_days.map(() => 20);

/** Sound: 2 °C above the shade, 22 °C itself, 1 °C above p02, 0 above p03, 3 °C above p04, which is least alike. */
const SOUND: Baseline = {
  own: level(22, 0.5),
  shade: { ...level(2), memory: 2, share: 1 },
  peers: [
    ['p02', level(1, 0.1)],
    ['p03', level(0, 0.2)],
    ['p04', level(3, 0.9)],
  ],
};
const now = (probe_C: number, others: Record<string, number> = {}, shade = true): Present => ({
  probe_C,
  means: new Map(Object.entries(others)),
  shade_C: shade ? SHADE_C : undefined,
});
const OTHERS = { p02: 21, p03: 22, p04: 19 };

describe('with a shade probe and neighbours', () => {
  test('a probe as it always was has no excess', () => {
    expect(excessOf(now(22, OTHERS), SOUND)).toEqual({
      basis: 'shade and neighbours',
      excess_C: 0,
      band_C: PARAMETERS.bandLeast_C,
    });
  });
  test('a probe that warms alone has its whole excess', () => {
    expect(excessOf(now(24, OTHERS), SOUND).excess_C).toBe(2);
  });
  test('where the whole bed warms, only a part counts', () => {
    const warm = { p02: 23, p03: 24, p04: 21 };
    expect(excessOf(now(24, warm), SOUND).excess_C).toBeCloseTo(PARAMETERS.aloneShare * 2, 9);
  });
  test('where the neighbours warm by half, one and a half times the difference counts', () => {
    const halfWarm = { p02: 22, p03: 23, p04: 20 };
    expect(excessOf(now(24, halfWarm), SOUND).excess_C).toBe(1.5);
  });
  test('of the two most alike the warmer one decides', () => {
    expect(excessOf(now(24, { ...OTHERS, p03: 23 }), SOUND).excess_C).toBe(1.5);
    expect(excessOf(now(24, { ...OTHERS, p02: 22 }), SOUND).excess_C).toBe(1.5);
  });
  test('a neighbour that cools is no excess', () => {
    expect(excessOf(now(22, { ...OTHERS, p02: 15, p03: 15 }), SOUND).excess_C).toBe(0);
  });
  test('the least alike neighbour is not asked', () => {
    expect(excessOf(now(24, { ...OTHERS, p04: 40 }), SOUND).excess_C).toBe(2);
  });
  test('a neighbour that is silent is not asked', () => {
    expect(excessOf(now(24, { p03: 22 }), SOUND)).toMatchObject({
      basis: 'shade and neighbours',
      excess_C: 2,
    });
  });
});

describe('with less', () => {
  test('a shade probe alone', () => {
    expect(excessOf(now(24), SOUND)).toMatchObject({ basis: 'shade', excess_C: 2 });
  });
  test('two neighbours without a shade probe must agree', () => {
    expect(excessOf(now(24, OTHERS, false), SOUND)).toMatchObject({ basis: 'neighbours', excess_C: 2 });
    expect(excessOf(now(22, { ...OTHERS, p02: 15 }, false), SOUND).excess_C).toBe(0);
  });
  test('with one neighbour own history must agree', () => {
    const one = excessOf(now(22, { p03: 15 }, false), SOUND);
    expect(one).toMatchObject({ basis: 'one neighbour and own history', excess_C: 0 });
  });
  test('own history, with the wider band of its spread', () => {
    expect(excessOf(now(24, {}, false), SOUND)).toEqual({ basis: 'own history', excess_C: 2, band_C: 1.5 });
  });
  test('a shade probe of which nothing was learned counts for nothing', () => {
    expect(excessOf(now(24, OTHERS), { ...SOUND, shade: null }).basis).toBe('neighbours');
  });
});

describe('what is asked of an excess', () => {
  test('the threshold, or the band of a sound bed where that is wider', () => {
    expect(asked_C(1, { basis: 'shade and neighbours', band_C: 0.3 })).toBe(1);
    expect(asked_C(1, { basis: 'shade and neighbours', band_C: 1.4 })).toBe(1.4);
  });
  test('more where the basis is weak', () => {
    expect(asked_C(1, { basis: 'shade', band_C: 0.3 })).toBe(1.5);
    expect(asked_C(1, { basis: 'own history', band_C: 0.3 })).toBe(3);
  });
  test('a rise of 0.02 °C an hour is 0.48 °C a day, gaps or not', () => {
    const rising = Array.from({ length: 72 }, (_, hour) => (hour % 5 === 0 ? null : 0.02 * hour));
    expect(rate_C_per_day(rising)).toBeCloseTo(0.48, 9);
  });
  test('a rise over fewer than 48 hours is not known', () => {
    expect(rate_C_per_day(Array.from({ length: 47 }, (_, hour) => hour))).toBeUndefined();
  });
});
