import { describe, expect, test } from 'vitest';
import { meanOfSeries } from '../../../services/core/calibration/mean-of-series.js';

describe('by hand', () => {
  test('six batches of four whose means are 0 and 2 in turn: u sqrt(1/5)', () => {
    // Within a batch +1 and -1 in turn, so that neighbours do not show it: first order gives 0.31 only.
    const values = Array.from(
      { length: 24 },
      (_, at) => (at % 2 === 0 ? 1 : -1) + (Math.floor(at / 4) % 2 === 0 ? 0 : 2),
    );
    const { mean, scatter, standardUncertainty, independent } = meanOfSeries(
      Object.freeze(values) as number[],
    );
    expect(mean).toBe(1);
    // Squares: 24 of 1 for the turns, 24 of 1 for the batches, over 23.
    expect(scatter).toBeCloseTo(Math.sqrt(48 / 23), 12);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(1 / 5), 12);
    expect(independent).toBeCloseTo((48 / 23) * 5, 10);
  });

  test('values that turn about count as independent, not as more', () => {
    const values = Array.from({ length: 24 }, (_, at) => (at % 2 === 0 ? 1 : -1));
    expect(meanOfSeries(values).independent).toBeCloseTo(24, 10);
  });

  test('a straight rise is worth one or two values', () => {
    const { standardUncertainty, scatter, independent } = meanOfSeries(
      Array.from({ length: 48 }, (_, at) => at),
    );
    expect(independent).toBeGreaterThanOrEqual(1);
    expect(independent).toBeLessThan(2);
    expect(standardUncertainty).toBeLessThanOrEqual(scatter);
  });

  test('the same value throughout has no scatter', () => {
    expect(meanOfSeries(Array(30).fill(0.25))).toEqual({
      mean: 0.25,
      scatter: 0,
      standardUncertainty: 0,
      independent: 30,
    });
  });
});
