import { describe, expect, test } from 'vitest';
import { fitCalibration, fitPolynomial } from '../../../services/core/calibration/index.js';
import { judgedResiduals, outliersOf } from '../../../services/core/calibration/outliers.js';
import { along, beside, QUIET } from './some-points.js';

const TEMPERATURE = { quantity: 'temperature' } as const;
const TWELVE = [2, 6, 10, 14, 18, 22, 26, 30, 34, 38, 42, 46];
const SCATTER = [0.01, -0.03, 0.02, 0.01, -0.02, 0.03, -0.01, -0.02, 0.02, -0.01, 0.02, -0.02];

const named = (y: readonly number[]): ReturnType<typeof outliersOf> => {
  const fit = fitPolynomial({ x: y, y }, 0);
  return outliersOf(fit, judgedResiduals(fit, [...y.keys()]), 0);
};

describe('for a plain mean it is Grubbs’ test', () => {
  // NIST/SEMATECH e-Handbook 1.3.5.17.1, isotope ratios: G = 2.4687 [from memory].
  const RATIOS = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
  /** The print has four places, cut off: 2.46876 [computed by hand]. */
  const CUT_OFF = 1e-4;
  // Critical deviation from the mean in s, two-sided 5 % [scipy 1.17, from the formula of Grubbs; tables have 2.126 to
  // 2.127 and 2.290, from memory].
  const ROUNDING = 0.6e-4;
  /** From standard deviations of the residual to those of one value. */
  const share = (count: number): number => Math.sqrt(1 - 1 / count);

  test('245.57 is named, at G 2.4687 over 2.127', () => {
    const [outlier, ...rest] = named(RATIOS);
    expect(rest).toEqual([]);
    expect(outlier?.index).toBe(7);
    expect(Math.abs((outlier?.standardised ?? 0) * share(8) - 2.4687)).toBeLessThan(CUT_OFF);
    expect(Math.abs((outlier?.bound ?? 0) * share(8) - 2.1266)).toBeLessThan(ROUNDING);
  });

  test('of ten the critical value is 2.2900', () => {
    const [outlier] = named([0, 1, 0, 1, 0, 1, 0, 1, 0, 100]);
    expect(Math.abs((outlier?.bound ?? 0) * share(10) - 2.29)).toBeLessThan(ROUNDING);
  });
});

describe('a point that does not belong', () => {
  test('is named and still counts', () => {
    const scatter = SCATTER.with(6, 0.4);
    const points = along(TWELVE, (t) => 0.01 * t, scatter);
    const fit = fitCalibration(points, { ...TEMPERATURE, form: 'linear' });
    expect(fit.outliers.map(({ index }) => index)).toEqual([6]);
    expect(fit.residuals).toHaveLength(12);
    expect(Math.abs(fit.outliers[0]?.standardised ?? 0)).toBeGreaterThan(fit.outliers[0]?.bound ?? 99);
  });

  test('is named by its place among all points given, also where others were left out', () => {
    const points = along(TWELVE, () => 0.1, SCATTER.with(6, 0.4));
    const leaveOut = [{ index: 0, reason: 'bath had not settled' }];
    expect(fitCalibration(points, { ...TEMPERATURE, leaveOut }).outliers.map(({ index }) => index)).toEqual([
      6,
    ]);
  });

  test('is named against its own uncertainty in a weighted fit', () => {
    const points = along(TWELVE, () => 0.1, SCATTER.with(6, 0.4));
    const weighted = { ...TEMPERATURE, form: 'offset', weighting: 'weighted' } as const;
    expect(fitCalibration(points, weighted).outliers.map(({ index }) => index)).toEqual([6]);
    // A reference of 0.3 °C explains 0.4 °C.
    const unsure = points.map((point, at) => (at === 6 ? { ...point, referenceUncertainty: 0.3 } : point));
    expect(fitCalibration(unsure, weighted).outliers).toEqual([]);
  });

  test('is named among points that agree to the last digit', () => {
    const points = along(
      TWELVE,
      () => 0.25,
      TWELVE.map((_, at) => (at === 3 ? 0.5 : 0)),
    );
    expect(
      fitCalibration(points, { ...TEMPERATURE, form: 'offset' }).outliers.map(({ index }) => index),
    ).toEqual([3]);
  });
});

describe('nothing is named', () => {
  test('among good points', () => {
    expect(
      fitCalibration(
        along(TWELVE, () => 0.1, SCATTER),
        TEMPERATURE,
      ).outliers,
    ).toEqual([]);
  });

  test('where the residuals are binary dust', () => {
    expect(
      fitCalibration(
        along(TWELVE, (t) => 0.013 * t),
        TEMPERATURE,
      ).outliers,
    ).toEqual([]);
  });

  test('of what is too small to matter, however still the others are', () => {
    const points = along(
      TWELVE,
      () => 0.25,
      TWELVE.map((_, at) => (at === 3 ? 0.004 : 0)),
    );
    expect(fitCalibration(points, { ...TEMPERATURE, form: 'offset' }).outliers).toEqual([]);
  });

  test('where all scatter more than their uncertainties say', () => {
    const wild = along(
      TWELVE,
      () => 0.1,
      SCATTER.map((value) => value * 100),
    );
    const fit = fitCalibration(wild, { ...TEMPERATURE, form: 'offset', weighting: 'weighted' });
    expect(fit.birgeRatio).toBeGreaterThan(10);
    expect(fit.outliers).toEqual([]);
  });

  test('of two points that differ: either may be the wrong one', () => {
    expect(fitCalibration([beside(20, 20), beside(20.1, 25)], TEMPERATURE).outliers).toEqual([]);
  });
});

test('a point that holds the curve alone has no standardised residual', () => {
  const fit = fitCalibration([...along([20, 20.1, 20.2, 20.1, 20], () => 0.1, QUIET), beside(60, 60.4)], {
    ...TEMPERATURE,
    form: 'linear',
  });
  expect(fit.residuals[5]?.index).toBe(5);
  expect(Math.abs(fit.residuals[5]?.residual ?? 1)).toBeLessThan(1e-4);
  expect(fitPolynomial({ x: [0, 0, 0, 1], y: [1, 2, 3, 4] }, 1).leverages[3]).toBeCloseTo(1, 12);
  const alone = fitPolynomial({ x: [0, 0, 0, 1], y: [1, 2, 3, 4] }, 1);
  expect(judgedResiduals(alone, [0, 1, 2, 3])[3]).not.toHaveProperty('standardised');
});
