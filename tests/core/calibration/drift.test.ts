import { describe, expect, test } from 'vitest';
import { correctionChange, driftBetween, fitCalibration } from '../../../services/core/calibration/index.js';
import type { CalibrationFit } from '../../../services/core/model/calibration.js';
import { codeOf, refuses } from '../physics/refused.js';
import { along, beside, QUIET } from './some-points.js';

const SIX = [2, 10, 18, 26, 34, 42];
const fitOf = (correction: (t: number) => number, at: readonly number[] = SIX): CalibrationFit =>
  fitCalibration(along(at, correction), { quantity: 'temperature' });

const BEFORE = fitOf((t) => 0.3 - 0.01 * t);

describe('a probe as it was found', () => {
  test('by its calibration: corrected less reference, at each point, and the largest of either sign', () => {
    const found = driftBetween(
      [beside(10, 10.3), beside(30, 30.2), beside(20, 20)],
      BEFORE,
      'temperature',
      0.15,
    );
    expect(found.points.map(({ error }) => Number(error.toFixed(6)))).toEqual([-0.1, -0.2, 0.1]);
    expect(found.largest.index).toBe(1);
    expect(found).toMatchObject({ tolerance: 0.15, exceeds: true });
  });

  test('without a calibration by its raw values', () => {
    const found = driftBetween([beside(20.4, 20)], undefined, 'temperature', 0.5);
    expect(found.largest.error).toBeCloseTo(0.4, 12);
    expect(found.largest.standardUncertainty).toBeCloseTo(0.05, 12);
    expect(found.exceeds).toBe(false);
  });

  test('error at the tolerance does not exceed it', () => {
    expect(driftBetween([beside(20.5, 20)], undefined, 'temperature', 0.5).exceeds).toBe(false);
    expect(driftBetween([beside(20.75, 20)], undefined, 'temperature', 0.5).exceeds).toBe(true);
  });

  // The uncertainty is 0.05, doubled 0.1.
  test.each([
    [20.35, false, true],
    [20.45, false, false],
    [20.55, true, false],
    [20.65, true, true],
  ])('%d against 20 within 0.5: exceeds %s, certain %s', (indicated, exceeds, certain) => {
    const found = driftBetween([beside(indicated, 20)], undefined, 'temperature', 0.5);
    expect(found).toMatchObject({ exceeds, certain });
  });

  test('has the uncertainty of both calibrations’ references', () => {
    // No scatter at all: what is left is the old common part and the new reference.
    const { standardUncertainty } = driftBetween([beside(22, 22.1)], BEFORE, 'temperature', 1).largest;
    expect(standardUncertainty).toBeCloseTo(0.05 * Math.SQRT2, 9);
  });

  test('has its own scatter in the place of that on record', () => {
    const fit = { ...BEFORE, repeatability: 0.3 };
    const noted = beside(22, 22.1, { indicatedScatter: 0.4, indicatedCount: 4 });
    expect(driftBetween([noted], fit, 'temperature', 1).largest.standardUncertainty).toBeCloseTo(
      Math.hypot(0.05, 0.05, 0.2),
      9,
    );
    const bare = beside(22, 22.1, { indicatedCount: 9 });
    expect(driftBetween([bare], fit, 'temperature', 1).largest.standardUncertainty).toBeCloseTo(
      Math.hypot(0.05, 0.05, 0.1),
      9,
    );
  });

  test('beyond the range of the calibration it says so', () => {
    expect(driftBetween([beside(50, 50)], BEFORE, 'temperature', 1).largest.outsideRange).toBe(true);
  });
});

describe('the change of a correction', () => {
  test('of two offsets is the same everywhere, over the range that both cover', () => {
    const change = correctionChange(
      fitOf(() => 0.1, [0, 10, 20]),
      fitOf(() => 0.4, [5, 15, 40]),
    );
    expect(change.range).toEqual([5, 20]);
    expect(change.change).toBeCloseTo(0.3, 12);
  });

  test('of two lines is largest at an end', () => {
    const change = correctionChange(
      fitOf(() => 0.1),
      fitOf((t) => 0.1 - 0.02 * t),
    );
    expect(change.indicated).toBe(42);
    expect(change.change).toBeCloseTo(-0.84, 9);
  });

  test('of a curve may be largest between', () => {
    const change = correctionChange(
      fitOf((t) => 0.01 * t),
      fitOf((t) => 0.01 * t + 0.5 - 0.001 * (t - 20) ** 2),
    );
    expect(change.indicated).toBeCloseTo(20, 9);
    expect(change.change).toBeCloseTo(0.5, 9);
  });

  test('is found by looking everywhere too', () => {
    const [before, after] = [
      fitOf((t) => 0.3 - 0.01 * t + 0.0004 * t * t),
      fitOf((t) => 0.1 + 0.008 * t - 0.0003 * t * t, [0, 12, 20, 28, 36]),
    ];
    const { range, change } = correctionChange(before, after);
    let most = 0;
    for (let t = range[0]; t <= range[1]; t += 0.001) {
      const there = correctionChange({ ...before, range: [t, t] }, { ...after, range: [t, t] }).change;
      most = Math.max(most, Math.abs(there));
    }
    // One step of 0.001 changes it by less than 5e-5.
    expect(Math.abs(change)).toBeGreaterThan(most - 1e-12);
    expect(Math.abs(change)).toBeLessThan(most + 5e-5);
  });

  test('is as unsure as both together', () => {
    const noisy = fitCalibration(
      along(SIX, () => 0.3, QUIET),
      { quantity: 'temperature' },
    );
    const scatter = Math.sqrt(noisy.covariance[0]?.[0] ?? 0);
    expect(correctionChange(noisy, noisy)).toMatchObject({ change: 0 });
    expect(correctionChange(noisy, noisy).standardUncertainty).toBeCloseTo(
      Math.SQRT2 * Math.hypot(scatter, 0.05),
      12,
    );
  });
});

describe('what is refused', () => {
  refuses(
    'tolerance',
    (tolerance) => driftBetween([beside(20, 20)], BEFORE, 'temperature', tolerance),
    [0, -0.5],
  );

  test('no points', () => {
    expect(codeOf(() => driftBetween([], BEFORE, 'temperature', 0.5))).toBe('TOO_FEW_SAMPLES');
  });

  test('a point that is not whole', () => {
    const points = [beside(20, 20), beside(Number.NaN, 20)];
    expect(codeOf(() => driftBetween(points, BEFORE, 'temperature', 0.5))).toBe('OUT_OF_DOMAIN');
  });

  test('a calibration of the other quantity', () => {
    expect(codeOf(() => driftBetween([beside(75, 75.3)], BEFORE, 'humidity', 2))).toBe('OUT_OF_DOMAIN');
    const humidity = fitCalibration([beside(20, 21)], { quantity: 'humidity' });
    expect(codeOf(() => correctionChange(BEFORE, humidity))).toBe('OUT_OF_DOMAIN');
  });

  test('calibrations with nothing in common', () => {
    const far = fitOf(() => 0.1, [50, 60]);
    expect(codeOf(() => correctionChange(BEFORE, far))).toBe('OUT_OF_DOMAIN');
  });
});
