import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  mannKendall,
  type Point,
  robustScale,
  theilSen,
} from '../../../../services/core/watch/sequential/index.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
const tooFew = expect.objectContaining({ code: 'TOO_FEW_SAMPLES' });
const limitExceeded = expect.objectContaining({ code: 'LIMIT_EXCEEDED' });
const LINE: readonly Point[] = Object.freeze(
  [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((x): Point => [x, 2 * x + 1]),
);

describe('robust scale', () => {
  test('four wild values of nine do not carry it away', () => {
    const { median, deviation } = robustScale([10, 11, 12, 13, 14, 1e6, 1e6, -1e6, -1e6]);
    expect(median).toBe(12);
    expect(deviation).toBeLessThan(4);
  });

  test('it moves and stretches with the values, which stay as they were', () => {
    const values = Object.freeze([3, 1, 4, 1, 5, 9, 2, 6]);
    const once = robustScale(values);
    const moved = robustScale(values.map((value) => 100 - 3 * value));
    expect(moved.median).toBeCloseTo(100 - 3 * once.median, 12);
    expect(moved.deviation).toBeCloseTo(3 * once.deviation, 12);
  });

  test('none, NaN and infinity are refused', () => {
    expect(() => robustScale([])).toThrow(tooFew);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => robustScale([1, bad, 2])).toThrow(outOfDomain);
  });
});

describe('robust line', () => {
  test('two wild points of ten do not carry it away', () => {
    const wild = LINE.map(([x, y], at): Point => (at === 2 || at === 7 ? [x, 500] : [x, y]));
    const { slope, intercept } = theilSen(wild);
    expect(slope).toBeCloseTo(2, 12);
    // By hand: median y 12, median x 4.5.
    expect(intercept).toBeCloseTo(3, 12);
    expect(theilSen(LINE)).toMatchObject({ slope: 2, intercept: 1 });
  });

  test('turning y over turns slope and interval over', () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: -50, max: 50 }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 10, maxLength: 25 }), (points) => {
        fc.pre(new Set(points.map(([x]) => x)).size > 1);
        const straight = theilSen(points);
        const turned = theilSen(points.map(([x, y]) => [x, -y]));
        expect(turned.slope).toBeCloseTo(-straight.slope, 12);
        const { low = 0, high = 0 } = straight.slopeInterval ?? {};
        expect(low).toBeLessThanOrEqual(straight.slope);
        expect(high).toBeGreaterThanOrEqual(straight.slope);
      }),
      { seed: SEED },
    );
  });

  test('more confidence is a wider interval; three points bear none of 95 %', () => {
    const rough = LINE.map(([x, y], at): Point => [x, y + ((at * 7) % 5)]);
    const width = (confidence: number): number => {
      const { low, high } = theilSen(rough, confidence).slopeInterval ?? { low: 0, high: Number.NaN };
      return high - low;
    };
    expect(width(0.99)).toBeGreaterThan(width(0.8));
    expect(theilSen(LINE.slice(0, 3))).toEqual({ slope: 2, intercept: 1 });
  });

  test.each([
    ['no point', [], tooFew],
    ['one point', [[1, 1]], tooFew],
    [
      'one x only',
      [
        [1, 1],
        [1, 2],
        [1, 3],
      ],
      tooFew,
    ],
    [
      'NaN',
      [
        [1, 1],
        [2, Number.NaN],
      ],
      outOfDomain,
    ],
    [
      'infinity',
      [
        [1, 1],
        [Number.POSITIVE_INFINITY, 2],
      ],
      outOfDomain,
    ],
    ['too many', Array.from({ length: 1001 }, (_, x) => [x, x]), limitExceeded],
  ] as [string, Point[], unknown][])('%s is refused', (_, points, refusal) => {
    expect(() => theilSen(points)).toThrow(refusal as Error);
  });

  test.each([0, 0.4, 1, Number.NaN])('a confidence of %d is refused', (confidence) => {
    expect(() => theilSen(LINE, confidence)).toThrow(outOfDomain);
  });
});

describe('trend', () => {
  test('of four values that rise, by hand: 6 pairs of 6, 2 orders of 24', () => {
    const { sum, variance, probability, tau } = mannKendall([1, 2, 3, 4]);
    expect({ sum, tau }).toEqual({ sum: 6, tau: 1 });
    // 4 x 3 x 13 / 18
    expect(variance).toBeCloseTo(8.666667, 6);
    expect(probability).toBeCloseTo(2 / 24, 12);
  });

  test('turned over it falls as surely as it rose, and equal values have none', () => {
    const values = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 4, maxLength: 45 });
    fc.assert(
      fc.property(values, (series) => {
        const rising = mannKendall(series);
        const falling = mannKendall(series.map((value) => -value));
        expect(falling.sum).toBe(rising.sum === 0 ? 0 : -rising.sum);
        expect(falling.probability).toBe(rising.probability);
        expect(rising.probability).toBeGreaterThan(0);
        expect(rising.probability).toBeLessThanOrEqual(1);
      }),
      { seed: SEED },
    );
    const equal = mannKendall([3, 3, 3, 3, 3]);
    expect(equal).toEqual({ sum: 0, variance: 0, score: 0, probability: 1, exact: false });
  });

  test('counted out and from the normal distribution agree at 40 values', () => {
    const series = Array.from({ length: 40 }, (_, at) => at + 13 * ((at * 17) % 7));
    const { probability, score, exact } = mannKendall(series.map((value, at) => value + at / 1000));
    const longer = mannKendall([...series, 60.5].map((value, at) => value + at / 1000));
    expect([exact, longer.exact]).toEqual([true, false]);
    expect(Math.abs(score)).toBeGreaterThan(1);
    expect(Math.abs(longer.probability - probability)).toBeLessThan(0.05);
  });

  test.each([
    ['three values', [1, 2, 3], tooFew],
    ['NaN', [1, 2, 3, Number.NaN], outOfDomain],
    ['infinity', [1, 2, 3, Number.NEGATIVE_INFINITY], outOfDomain],
    ['too many', Array.from({ length: 1001 }, (_, at) => at), limitExceeded],
  ] as [string, number[], unknown][])('%s are refused', (_, values, refusal) => {
    expect(() => mannKendall(values)).toThrow(refusal as Error);
  });
});
