/**
 * Average run lengths against tables. [L]: computed with the R package spc, two-sided and begun at 0; equal to the
 * tables of D. C. Montgomery, Introduction to Statistical Quality Control, and of J. M. Lucas & M. S. Saccucci,
 * Technometrics 32 (1990) 1-12 [M].
 */
import { describe, expect, test } from 'vitest';
import {
  cusumLimitFor,
  ewmaRunLength,
  ewmaWidthFor,
  normalScore,
  normalTail,
  oneSidedCusumRunLength,
  twoSidedCusumRunLength,
} from '../../services/core/watch/sequential/index.js';

/** Two decimals are printed. */
const PRINTED = 0.005 + 1e-6;
const SHIFTS = [0, 0.25, 0.5, 0.75, 1, 1.5, 2, 3];

const expectRow = (found: readonly number[], published: readonly number[]): void =>
  found.forEach((runLength, at) => {
    expect(Math.abs(runLength - (published[at] ?? Number.NaN))).toBeLessThanOrEqual(PRINTED);
  });

describe('cumulative sum, slack 0.5 [L]', () => {
  test.each([
    [4, [167.68, 74.22, 26.63, 13.29, 8.38, 4.75, 3.34, 2.19]],
    [5, [465.44, 139.49, 38.0, 17.05, 10.38, 5.75, 4.01, 2.57]],
  ])('limit %d', (limit, published) => {
    expectRow(
      SHIFTS.map((shift) => twoSidedCusumRunLength({ slack: 0.5, limit, shift })),
      published,
    );
  });
});

describe('EWMA [L]', () => {
  test.each([
    [0.05, 2.615, [499.93, 84.01, 28.76, 16.37, 11.38, 7.11, 5.22, 3.5]],
    [0.1, 2.814, [499.58, 106.32, 31.3, 15.85, 10.33, 6.08, 4.36, 2.87]],
    [0.2, 2.962, [499.74, 150.22, 41.76, 18.15, 10.54, 5.5, 3.74, 2.38]],
    [0.3, 3, [465.55, 178.74, 53.16, 21.83, 11.7, 5.45, 3.51, 2.15]],
  ])('weight %d, width %d', (weight, width, published) => {
    expectRow(
      SHIFTS.map((shift) => ewmaRunLength({ weight, width, shift })),
      published,
    );
  });
});

describe('closed forms and other arithmetic', () => {
  test('a weight of 1 is the plain chart: 370.3983 between three deviations [C: 1 / (2 P(x > 3))]', () => {
    expect(Math.abs(ewmaRunLength({ weight: 1, width: 3, shift: 0 }) - 370.3983473449564)).toBeLessThan(1e-8);
  });

  test('a limit of 0 waits for one observation above the slack: 3.241096 at 0.5 [C: 1 / P(x > 0.5)]', () => {
    const found = oneSidedCusumRunLength({ slack: 0.5, limit: 0, shift: 0 });
    expect(Math.abs(found - 3.2410964)).toBeLessThan(1e-6);
  });

  // Slack 0.5, in control, with 50 digits and Gauss-Legendre nodes of their own [L mpmath].
  test.each([
    [5, 930.8870120641235, 1e-10],
    [12, 1036577.514969711, 1e-8],
    [20, 3090078553.071912, 1e-4],
  ])('limit %d: run length %d of the upper sum', (limit, published, tolerance) => {
    const found = oneSidedCusumRunLength({ slack: 0.5, limit, shift: 0 });
    expect(Math.abs(found / published - 1)).toBeLessThan(tolerance);
  });
});

describe('a moving average in control, with 40 digits and nodes of its own [L mpmath]', () => {
  test.each([
    [0.1, 3, 842.149755802788],
    [0.05, 2.615, 499.9330057109866],
  ])('weight %d, width %d: %d', (weight, width, published) => {
    expect(Math.abs(ewmaRunLength({ weight, width, shift: 0 }) / published - 1)).toBeLessThan(1e-11);
  });
});

describe('the limits behind the tables', () => {
  test('a cumulative sum that runs 465.44 has limit 5, one that runs 167.68 has 4', () => {
    // The tables' two decimals leave the limit open by about 1e-5.
    expect(Math.abs(cusumLimitFor(0.5, 465.44, 2) - 5)).toBeLessThan(3e-5);
    expect(Math.abs(cusumLimitFor(0.5, 167.68, 2) - 4)).toBeLessThan(3e-5);
  });

  test('a moving average of weight 0.1 that runs 499.58 has width 2.814', () => {
    expect(Math.abs(ewmaWidthFor(0.1, 499.58) - 2.814)).toBeLessThan(1e-5);
  });
});

describe('the normal distribution', () => {
  // Tails computed with 40 digits [L mpmath]; scipy 1.17 is 1.1e-13 off at 37. Scores [L scipy].
  test.each([
    [1.999999, 0.0227501859391997],
    [2, 0.0227501319481792],
    [6, 9.865876450376981e-10],
    [37, 5.725571222524577e-300],
  ])('above %d lies %d', (x, published) => {
    expect(Math.abs(normalTail(x) / published - 1)).toBeLessThan(1e-14);
  });

  test.each([
    [0.025, 1.9599639845400545],
    [0.25, 0.6744897501960817],
    [1e-15, 7.941345326170997],
  ])('a share of %d lies above %d', (tail, published) => {
    expect(Math.abs(normalScore(tail) - published)).toBeLessThan(1e-12);
  });
});
