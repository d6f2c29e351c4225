/**
 * Robust scale, slope and trend against worked examples. Tags: [V] seen in the source, [M] from memory, [L] computed
 * with a general-purpose library.
 */
import { describe, expect, test } from 'vitest';
import {
  DEVIATION_PER_MAD,
  mannKendall,
  normalScore,
  type Point,
  robustScale,
  theilSen,
} from '../../services/core/watch/sequential/index.js';
import { NORRIS } from './norris.js';

const near = (found: number | undefined, published: number, tolerance = 1e-9): void =>
  expect(Math.abs((found ?? Number.NaN) - published)).toBeLessThanOrEqual(tolerance);

const paired = (xs: readonly number[], ys: readonly number[]): Point[] =>
  xs.map((x, at) => [x, ys[at] ?? Number.NaN]);

describe('EPA QA/G-9S (2006), Mann-Kendall with ties, p. 109', () => {
  const SERIES = [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15];

  test('S 22, variance 155.33, Z 1.685 [V]; p 0.091998, tau-b 0.428174 [L]', () => {
    const { sum, variance, score, probability, exact, tau } = mannKendall(SERIES);
    expect(sum).toBe(22);
    near(variance, 155.3333, 0.5e-4);
    near(score, 1.68495, 0.5e-6);
    near(probability, 0.091998, 0.5e-6);
    expect(exact).toBe(false);
    near(tau, 0.428174, 0.5e-6);
  });

  test('Theil-Sen slope 1, 95 % 0 to 2 [L]', () => {
    const { slope, slopeInterval } = theilSen(SERIES.map((y, x) => [x, y]));
    expect(slope).toBe(1);
    expect(slopeInterval).toEqual({ low: 0, high: 2 });
  });
});

describe('Hollander & Wolfe, Nonparametric Statistical Methods, tuna', () => {
  // As in the documentation of R's cor.test [V], recomputed [L R 4.2.2, scipy].
  const XS = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
  const YS = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
  const inOrder = paired(XS, YS)
    .sort(([a], [b]) => a - b)
    .map(([, y]) => y);

  test('26 of 36 pairs rise, tau 0.4444444, exact p 0.1194389', () => {
    const { sum, probability, exact, tau } = mannKendall(inOrder);
    expect((36 + sum) / 2).toBe(26);
    expect(exact).toBe(true);
    near(probability, 0.1194389, 0.5e-7);
    near(tau, 0.4444444, 0.5e-7);
  });

  test('Theil-Sen slope 0.129347826, 95 % -0.0769231 to 0.3068182 [L scipy]', () => {
    const { slope, slopeInterval } = theilSen(paired(XS, YS));
    near(slope, 0.129347826, 0.5e-9);
    near(slopeInterval?.low, -0.07692307692307716);
    near(slopeInterval?.high, 0.3068181818181817);
  });
});

describe('Hollander, Wolfe & Chicken, Ex. 9.1', () => {
  test('slope -0.05625, intercept 1.32875 as median y less slope times median x [V data, L]', () => {
    const YS = [1.26, 1.27, 1.12, 1.16, 1.03];
    const { slope, intercept } = theilSen(YS.map((y, at) => [at + 1, y]));
    near(slope, -0.05625);
    near(intercept, 1.32875);
    expect(mannKendall(YS).sum).toBe(-6);
  });
});

describe('the case documented with ci.theil of the R package statpsych', () => {
  test('slope 0.5, 95 % 0.3243243 to 0.75 [V]', () => {
    const ys = [21, 4, 9, 12, 35, 18, 10, 22, 24, 1, 6, 8, 13, 16, 19];
    const xs = [67, 28, 30, 28, 52, 40, 25, 37, 44, 10, 14, 20, 28, 40, 51];
    const { slope, slopeInterval } = theilSen(paired(xs, ys));
    near(slope, 0.5);
    near(slopeInterval?.low, 0.3243243, 0.5e-7);
    near(slopeInterval?.high, 0.75);
  });
});

describe('two groups, where most pairs of x are ties', () => {
  test('slope 5, 95 % 1 to 11 [L scipy]; without the ties of x it would be -1 to 12 [C]', () => {
    const xs = [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1];
    const ys = [0, 7, 2, 9, 4, 1, 5, 12, 8, 14, 6, 11];
    expect(theilSen(paired(xs, ys))).toMatchObject({ slope: 5, slopeInterval: { low: 1, high: 11 } });
  });
});

describe('Norris, NIST StRD', () => {
  test('Theil-Sen slope 1.0021968365553604, intercept -0.0640158172 [L scipy]', () => {
    const { slope, intercept, slopeInterval } = theilSen(NORRIS);
    near(slope, 1.0021968365553604, 1e-13);
    near(intercept, -0.0640158172, 1e-9);
    near(slopeInterval?.low, 1.0011153245594469, 1e-13);
    near(slopeInterval?.high, 1.0030534351145037, 1e-13);
  });

  test('and the certified least-squares slope 1.00211681802045 lies within its interval', () => {
    const { low, high } = theilSen(NORRIS).slopeInterval ?? { low: Number.NaN, high: Number.NaN };
    expect(low).toBeLessThan(1.00211681802045);
    expect(high).toBeGreaterThan(1.00211681802045);
  });
});

describe('median absolute deviation', () => {
  // R's mad() multiplies by 1.4826 [L R 4.2.2]; the full constant differs in the sixth digit.
  test.each([
    [[1, 2, 3, 4, 5, 6, 7, 8, 9], 2.9652],
    [[1, 2, 3, 4, 5, 6, 7, 8, 100], 2.9652],
  ])('mad of %j is %d', (values, published) => {
    near(robustScale(values).deviation, published, 1e-5);
    near(robustScale(values).deviation, 2 * 1.482602218505602, 1e-15);
  });

  test('of 1 1 2 2 4 6 9: median 2, as it is 1', () => {
    expect(robustScale([1, 1, 2, 2, 4, 6, 9])).toEqual({
      median: 2,
      medianAbsoluteDeviation: 1,
      deviation: DEVIATION_PER_MAD,
    });
  });

  test('the factor is the reciprocal of the upper quartile', () => {
    near(DEVIATION_PER_MAD, 1 / normalScore(0.25), 1e-14);
  });
});
