import { describe, expect, test } from 'vitest';
import { budgetAt, correctionAt, fitCalibration } from '../../../services/core/calibration/index.js';
import type { CalibrationFit } from '../../../services/core/model/calibration.js';
import { codeOf, refuses } from '../physics/refused.js';
import { along, beside, QUIET } from './some-points.js';

const SIX = [2, 10, 18, 26, 34, 42];
const LINE = fitCalibration(
  along(SIX, (t) => 0.3 - 0.01 * (t - 22), QUIET),
  { quantity: 'temperature', resolution: 0.1, repeatability: 0.04 },
);

const partsOf = (fit: CalibrationFit, indicated: number, readings?: number): Record<string, number> =>
  Object.fromEntries(
    budgetAt(fit, indicated, readings).components.map(({ name, standardUncertainty }) => [
      name,
      standardUncertainty,
    ]),
  );

describe('a corrected value', () => {
  test('is indicated plus correction', () => {
    const { corrected, correction } = correctionAt(LINE, 30);
    expect(corrected).toBe(30 + correction);
    expect(correction).toBeCloseTo(0.22, 2);
  });

  test.each([
    [1.99, true],
    [2, false],
    [42, false],
    [42.01, true],
  ])('of %d lies outside the points: %s', (indicated, outside) => {
    expect(correctionAt(LINE, indicated).outsideRange).toBe(outside);
  });

  test('of humidity above 100 is not cut off', () => {
    const fit = fitCalibration([beside(92, 97.3, { source: 'salt' })], { quantity: 'humidity' });
    expect(correctionAt(fit, 98).corrected).toBeCloseTo(103.3, 12);
  });

  test('is least sure far from the points', () => {
    const at = [22, 42, 60, 90].map((t) => correctionAt(LINE, t).standardUncertainty);
    expect([...at].sort((one, other) => one - other)).toEqual(at);
  });
});

describe('its budget', () => {
  // s is sqrt(0.0012 / 4) with 0.0012 the sum of squares of the scatter, which has neither slope nor offset.
  const S = Math.sqrt(0.0012 / 4);
  // Sum of squares about the middle, 22: 2 (4^2 + 12^2 + 20^2).
  const SQUARES = 1120;

  test('has each component by its own law', () => {
    const parts = partsOf(LINE, 42);
    expect(parts['fit']).toBeCloseTo(S * Math.sqrt(1 / 6 + 20 ** 2 / SQUARES), 12);
    expect(parts['reference']).toBeCloseTo(0.05, 12);
    expect(parts['resolution']).toBeCloseTo(0.1 / Math.sqrt(12), 12);
    expect(parts['repeatability']).toBe(0.04);
  });

  test('adds up in squares, and doubles for k = 2', () => {
    const { components, standardUncertainty, expandedUncertainty } = budgetAt(LINE, 42);
    const squares = components.reduce((sum, component) => sum + component.standardUncertainty ** 2, 0);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(squares), 14);
    expect(expandedUncertainty).toBe(2 * standardUncertainty);
  });

  test('names clause and distribution of each', () => {
    const { components } = budgetAt(LINE, 20);
    expect(components.map(({ name, distribution }) => [name, distribution])).toEqual([
      ['fit', 'normal'],
      ['reference', 'normal'],
      ['resolution', 'rectangular'],
      ['repeatability', 'normal'],
    ]);
    for (const { clause } of components) expect(clause).toMatch(/^[FH\d]/);
  });

  test('of a mean of 16 has a quarter of the repeatability and all of the rest', () => {
    const [one, many] = [partsOf(LINE, 20), partsOf(LINE, 20, 16)];
    expect(many).toEqual({ ...one, repeatability: 0.01 });
  });

  test('has no component for what is not known', () => {
    const fit = fitCalibration(
      along(SIX, () => 0.3, QUIET),
      { quantity: 'temperature' },
    );
    expect(Object.keys(partsOf(fit, 20))).toEqual(['fit', 'reference']);
  });

  test('is never below what all references share, however many the points', () => {
    const many = Array.from({ length: 400 }, (_, at) => at / 10);
    const fit = fitCalibration(
      along(many, () => 0.3, QUIET),
      { quantity: 'temperature' },
    );
    const { standardUncertainty } = budgetAt(fit, 20);
    expect(standardUncertainty).toBeGreaterThan(0.05);
    expect(standardUncertainty).toBeLessThan(0.0501);
  });

  test('has degrees of freedom only where the scatter of a few points tells it', () => {
    expect(budgetAt(LINE, 20).components[0]?.degreesOfFreedom).toBe(4);
    const fixed = fitCalibration([beside(0.3, 0, { source: 'ice-point' })], { quantity: 'temperature' });
    expect(budgetAt(fixed, 20)).not.toHaveProperty('effectiveDegreesOfFreedom');
    expect(budgetAt(fixed, 20).components[0]).not.toHaveProperty('degreesOfFreedom');
  });
});

describe('what is refused', () => {
  refuses('indicated', (indicated) => correctionAt(LINE, indicated), [-274, 1001]);
  refuses('readings', (readings) => correctionAt(LINE, 20, readings), [0, -1, 0.5]);

  test('a covariance that is none', () => {
    const broken = {
      ...LINE,
      covariance: [
        [1e-6, -1],
        [-1, 1e-6],
      ],
    };
    expect(codeOf(() => correctionAt(broken, 40))).toBe('OUT_OF_DOMAIN');
  });
});
