import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gaussLegendre } from '../../../../services/core/watch/sequential/gauss-legendre.js';
import {
  alarmRateForRunLength,
  BED_MONTH_days,
  cusumLimitFor,
  ewmaRunLength,
  ewmaWidthFor,
  normalScore,
  normalTail,
  oneSidedCusumRunLength,
  runLengthForAlarmRate,
  twoSidedCusumRunLength,
} from '../../../../services/core/watch/sequential/index.js';
import { solveLinear } from '../../../../services/core/watch/sequential/linear-system.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
const limitExceeded = expect.objectContaining({ code: 'LIMIT_EXCEEDED' });
const CUSUM = { slack: 0.5, limit: 5, shift: 0 };
const EWMA = { weight: 0.1, width: 2.8, shift: 0 };

describe('run lengths', () => {
  test('a shift either way is found equally soon by both sides together', () => {
    for (const shift of [0.25, 1, 3, 10]) {
      const there = twoSidedCusumRunLength({ ...CUSUM, shift });
      expect(twoSidedCusumRunLength({ ...CUSUM, shift: -shift })).toBe(there);
      expect(ewmaRunLength({ ...EWMA, shift: -shift }) / ewmaRunLength({ ...EWMA, shift })).toBeCloseTo(1, 9);
    }
  });

  test('two sides in control run half as long as one', () => {
    expect(twoSidedCusumRunLength(CUSUM)).toBeCloseTo(oneSidedCusumRunLength(CUSUM) / 2, 9);
  });

  test('a sure signal takes one observation', () => {
    expect(oneSidedCusumRunLength({ slack: 0, limit: 0.1, shift: 10 })).toBeCloseTo(1, 12);
    expect(ewmaRunLength({ weight: 1, width: 1, shift: 10 })).toBeCloseTo(1, 12);
  });

  test('a side that never signals under a strong shift does not hide the other', () => {
    const one = oneSidedCusumRunLength({ ...CUSUM, shift: 4 });
    expect(twoSidedCusumRunLength({ ...CUSUM, shift: 4 })).toBeCloseTo(one, 9);
  });

  test('run lengths too long to tell are refused, not made up', () => {
    expect(() => oneSidedCusumRunLength({ ...CUSUM, limit: 40 })).toThrow(limitExceeded);
    expect(() => twoSidedCusumRunLength({ ...CUSUM, limit: 40 })).toThrow(limitExceeded);
    expect(() => oneSidedCusumRunLength({ ...CUSUM, shift: -5 })).toThrow(limitExceeded);
    expect(() => oneSidedCusumRunLength({ ...CUSUM, slack: 9, limit: 0 })).toThrow(limitExceeded);
    expect(() => ewmaRunLength({ ...EWMA, width: 9 })).toThrow(limitExceeded);
  });

  test.each([
    { slack: -0.1 },
    { slack: Number.NaN },
    { limit: -1 },
    { limit: 51 },
    { limit: Number.POSITIVE_INFINITY },
    { shift: 11 },
    { shift: Number.NaN },
  ])('a cumulative sum with %j is refused', (part) => {
    expect(() => oneSidedCusumRunLength({ ...CUSUM, ...part })).toThrow(outOfDomain);
    expect(() => twoSidedCusumRunLength({ ...CUSUM, ...part })).toThrow(outOfDomain);
  });

  test.each([
    { weight: 0 },
    { weight: 1.1 },
    { weight: Number.NaN },
    { width: 0 },
    { width: 11 },
    { shift: -11 },
    { shift: Number.NaN },
  ])('a moving average with %j is refused', (part) => {
    expect(() => ewmaRunLength({ ...EWMA, ...part })).toThrow(outOfDomain);
  });
});

describe('limits for a wanted run length', () => {
  test('give that run length back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 1.5, noNaN: true }),
        fc.double({ min: 2, max: 6, noNaN: true }),
        (slack, power) => {
          const wanted = 10 ** power;
          const limit = cusumLimitFor(slack, wanted, 2);
          const found = twoSidedCusumRunLength({ slack, limit, shift: 0 });
          expect(Math.abs(found / wanted - 1)).toBeLessThan(1e-6);
        },
      ),
      { seed: SEED, numRuns: 10 },
    );
    const width = ewmaWidthFor(0.2, 1000);
    expect(ewmaRunLength({ weight: 0.2, width, shift: 0 })).toBeCloseTo(1000, 3);
  });

  test('grow with the run length, and two sides need more than one', () => {
    const limits = [10, 100, 1e4, 1e7].map((wanted) => cusumLimitFor(0.5, wanted, 1));
    expect(limits).toEqual([...limits].sort((a, b) => a - b));
    expect(cusumLimitFor(0.5, 100, 2)).toBeGreaterThan(cusumLimitFor(0.5, 100, 1));
  });

  test('a limit above what is looked at is refused, not cut off', () => {
    expect(() => cusumLimitFor(0, 5000, 2)).toThrow(limitExceeded);
    expect(cusumLimitFor(0, 1000, 2)).toBeLessThan(50);
  });

  test('too few halvings are said to be too few', () => {
    const hasty = { tolerance: 1e-9, most: 5 };
    expect(() => cusumLimitFor(0.5, 500, 2, hasty)).toThrow(limitExceeded);
    expect(() => ewmaWidthFor(0.1, 500, hasty)).toThrow(limitExceeded);
  });

  test.each([1, 3.2, 0, -5, 1.1e9, Number.NaN, Number.POSITIVE_INFINITY])(
    'a run length of %d cannot be asked for: a limit of 0 gives 3.24',
    (wanted) => {
      expect(() => cusumLimitFor(0.5, wanted, 1)).toThrow(outOfDomain);
    },
  );

  test('a bad slack or weight is refused', () => {
    for (const bad of [-1, 11, Number.NaN]) {
      expect(() => cusumLimitFor(bad, 500, 2)).toThrow(outOfDomain);
      expect(() => ewmaWidthFor(bad, 500)).toThrow(outOfDomain);
    }
  });
});

describe('alarms in a bed-month', () => {
  test('by hand: one in 100 bed-months, steps of 6 h, 6 statistics: 6 x 120 steps x 100 = 72,000 steps', () => {
    expect(BED_MONTH_days).toBe(30);
    expect(runLengthForAlarmRate(0.01, { step_h: 6, parallel: 6 })).toBeCloseTo(72_000, 8);
    expect(alarmRateForRunLength(72_000, { step_h: 6, parallel: 6 })).toBeCloseTo(0.01, 12);
  });

  test('there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 1, noNaN: true }),
        fc.double({ min: 0.1, max: 24, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (rate, step_h, parallel) => {
          const back = alarmRateForRunLength(runLengthForAlarmRate(rate, { step_h, parallel }), {
            step_h,
            parallel,
          });
          expect(back / rate).toBeCloseTo(1, 12);
        },
      ),
      { seed: SEED },
    );
  });

  test.each([
    [0, { step_h: 1, parallel: 1 }],
    [Number.NaN, { step_h: 1, parallel: 1 }],
    [101, { step_h: 1, parallel: 1 }],
    [1, { step_h: 0, parallel: 1 }],
    [1, { step_h: 721, parallel: 1 }],
    [1, { step_h: Number.NaN, parallel: 1 }],
    [1, { step_h: 1, parallel: 0 }],
    [1, { step_h: 1, parallel: Number.NaN }],
    [31, { step_h: 24, parallel: 1 }],
  ])('%d a month with %j is refused', (rate, stepping) => {
    expect(() => runLengthForAlarmRate(rate, stepping)).toThrow(outOfDomain);
  });

  test.each([0.5, Number.NaN, Number.POSITIVE_INFINITY])('a run length of %d is refused', (runLength) => {
    expect(() => alarmRateForRunLength(runLength, { step_h: 1, parallel: 1 })).toThrow(outOfDomain);
  });
});

describe('the arithmetic beneath', () => {
  test('quadrature is exact for polynomials up to degree 2 n - 1', () => {
    for (const count of [2, 3, 7, 40]) {
      const { nodes, weights } = gaussLegendre(count, 1, 3);
      const degree = 2 * count - 1;
      const integral = nodes.reduce((sum, x, at) => sum + (weights[at] as number) * (x / 3) ** degree, 0);
      const exact = (3 / (degree + 1)) * (1 - (1 / 3) ** (degree + 1));
      expect(Math.abs(integral / exact - 1)).toBeLessThan(1e-12);
    }
  });

  test.each([
    [1, 0, 1],
    [2.5, 0, 1],
    [501, 0, 1],
    [5, 1, 0],
    [5, 0, Number.NaN],
  ])('%d nodes on %d to %d are refused', (count, low, high) => {
    expect(() => gaussLegendre(count, low, high)).toThrow(outOfDomain);
  });

  test('a system whose first pivot is 0', () => {
    const solution = solveLinear(Float64Array.of(0, 2, 1, 3, 1, 0, 1, 1, 1), Float64Array.of(7, 5, 6));
    // 2 y + z = 7, 3 x + y = 5, x + y + z = 6: x 1, y 2, z 3 by hand.
    expect([...solution].map((value) => Number(value.toFixed(12)))).toEqual([1, 2, 3]);
  });

  test('a system without a solution, or of another size, is refused', () => {
    expect(() => solveLinear(Float64Array.of(1, 2, 2, 4), Float64Array.of(1, 2))).toThrow(outOfDomain);
    expect(() => solveLinear(Float64Array.of(1, 2, 3), Float64Array.of(1, 2))).toThrow(outOfDomain);
  });

  test('tail and score are inverses', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true }), (tail) => {
        expect(Math.abs(normalTail(normalScore(tail)) / tail - 1)).toBeLessThan(1e-11);
      }),
      { seed: SEED },
    );
  });

  test.each([0, 1, -0.1, Number.NaN])('a tail of %d has no score', (tail) => {
    expect(() => normalScore(tail)).toThrow(outOfDomain);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%d has no tail', (x) => {
    expect(() => normalTail(x)).toThrow(outOfDomain);
  });
});
