import { describe, expect, test } from 'vitest';
import { fitCalibration, polynomialAt } from '../../../services/core/calibration/index.js';
import { codeOf } from '../physics/refused.js';
import { along, beside, messageOf, QUIET } from './some-points.js';

const TEMPERATURE = { quantity: 'temperature' } as const;
const HUMIDITY = { quantity: 'humidity' } as const;
const SIX = [2, 10, 18, 26, 34, 42] as const;

describe('the form that the points ask for', () => {
  test('is an offset where they have no slope', () => {
    const fit = fitCalibration(
      along(SIX, () => 0.3, QUIET),
      TEMPERATURE,
    );
    expect(fit.form).toBe('offset');
    expect(fit.reason).toMatch(/^Offset only: .*gain.*; .*curve.*\.$/);
    expect(fit.coefficients[0]).toBeCloseTo(0.3, 12);
  });

  test('is a gain where they have one', () => {
    const fit = fitCalibration(
      along(SIX, (t) => 0.3 - 0.01 * (t - 20), QUIET),
      TEMPERATURE,
    );
    expect(fit).toMatchObject({ form: 'linear', weighting: 'ordinary', degreesOfFreedom: 4, range: [2, 42] });
    expect(fit.reason).toMatch(
      /^Offset and gain: the gain is .* times its standard uncertainty.*2\.78.*95 %/,
    );
    expect(polynomialAt(fit, 30)).toBeCloseTo(0.2, 2);
  });

  test('is a curve where they bend', () => {
    const fit = fitCalibration(
      along(SIX, (t) => 0.3 + 0.001 * (t - 22) ** 2, QUIET),
      TEMPERATURE,
    );
    expect(fit.form).toBe('quadratic');
    expect(fit.coefficients[2]).toBeCloseTo(0.001, 4);
  });

  test('is the simplest for points without any scatter, whatever the last binary digits say', () => {
    expect(
      fitCalibration(
        along(SIX, () => 0.3),
        TEMPERATURE,
      ).form,
    ).toBe('offset');
    expect(
      fitCalibration(
        along(SIX, (t) => 0.01 * t),
        TEMPERATURE,
      ),
    ).toMatchObject({ form: 'linear' });
  });

  test('is an offset for one point, with the uncertainty of its reference', () => {
    const fit = fitCalibration([beside(25.4, 25)], TEMPERATURE);
    expect(fit).toMatchObject({
      form: 'offset',
      weighting: 'weighted',
      degreesOfFreedom: 0,
      commonUncertainty: 0,
    });
    expect(fit.reason).toBe(
      'Offset only: a gain needs points at two temperatures at least 10 °C apart; there is one point.',
    );
    expect(Math.sqrt(fit.covariance[0]?.[0] ?? 0)).toBeCloseTo(0.05, 12);
  });

  test('is a gain for ice and steam', () => {
    const points = [
      beside(0.42, 0, { source: 'ice-point', referenceUncertainty: 0.05 }),
      beside(99.1, 98.6, { source: 'boiling-point', referenceUncertainty: 0.1 }),
    ];
    const fit = fitCalibration(points, { ...TEMPERATURE, form: 'linear' });
    expect(polynomialAt(fit, 0.42)).toBeCloseTo(-0.42, 12);
    expect(polynomialAt(fit, 99.1)).toBeCloseTo(-0.5, 12);
    // 0.08 of difference against 0.11 of uncertainty: no gain by itself.
    expect(fitCalibration(points, TEMPERATURE).form).toBe('offset');
  });

  test('is told to be whatever was asked for, with what the points say of it', () => {
    const fit = fitCalibration(
      along(SIX, () => 0.3, QUIET),
      { ...TEMPERATURE, form: 'linear' },
    );
    expect(fit.form).toBe('linear');
    expect(fit.reason).toMatch(
      /^Offset and gain, as asked: the gain changes the correction by less than 0\.005 °C\.$/,
    );
  });
});

describe('a gain that the points cannot bear', () => {
  test.each([
    [
      'points at one temperature',
      [beside(20, 20.1), beside(20.1, 20.3), beside(23.1, 23.2)],
      'calibration: a gain needs points at two temperatures at least 10 °C apart; these all lie within 3.1 °C',
    ],
    [
      'two points at one temperature',
      [beside(20, 20.1), beside(20.4, 20.1)],
      'calibration: a gain needs points at two temperatures at least 10 °C apart; these all lie within 0 °C',
    ],
    [
      'a probe that stands still',
      [beside(20, 15), beside(20.2, 30)],
      'calibration: a gain needs a probe that follows; over 15 °C it changed by 0.2 °C',
    ],
  ])('%s', (_, points, message) => {
    const options = { ...TEMPERATURE, form: 'linear' } as const;
    expect(messageOf(points, options)).toBe(message);
    expect(codeOf(() => fitCalibration(points, options))).toBe('TOO_FEW_SAMPLES');
    expect(fitCalibration(points, TEMPERATURE).form).toBe('offset');
  });

  test('salts too near to each other', () => {
    const salts = [beside(73, 75.3, { source: 'salt' }), beside(82, 84.3, { source: 'salt' })];
    expect(messageOf(salts, { ...HUMIDITY, form: 'linear' })).toBe(
      'calibration: a gain needs points at two humidities at least 20 %RH apart; these all lie within 9 %RH',
    );
  });

  test('exactly 10 °C are enough, though 30.1 less 20.1 is none in binary', () => {
    const points = [beside(20, 20.1), beside(30, 30.1)];
    expect(fitCalibration(points, { ...TEMPERATURE, form: 'linear' }).form).toBe('linear');
    expect(
      codeOf(() => fitCalibration([beside(20, 20.1), beside(30, 30.09)], { ...TEMPERATURE, form: 'linear' })),
    ).toBe('TOO_FEW_SAMPLES');
  });

  test('a curve of three levels', () => {
    const points = along([0, 0.4, 20, 20.5, 40, 40.2], (t) => 0.001 * t * t, QUIET);
    expect(messageOf(points, { ...TEMPERATURE, form: 'quadratic' })).toBe(
      'calibration: a curve needs at least 5 points at 4 temperatures more than 1 °C from each other; these are 6 points at 3',
    );
  });

  test('a curve of four points', () => {
    const points = along([0, 10, 20, 30], (t) => 0.001 * t * t);
    expect(messageOf(points, { ...TEMPERATURE, form: 'quadratic' })).toContain('these are 4 points at 4');
  });

  test('no more points than coefficients that all count alike', () => {
    const points = [beside(0, 0.1), beside(40, 40.2)];
    const options = { ...TEMPERATURE, form: 'linear', weighting: 'ordinary' } as const;
    expect(messageOf(points, options)).toBe(
      'calibration: a gain of points that count alike needs at least 3 of them, to see their scatter; there are 2',
    );
    expect(messageOf(points.slice(1), { ...TEMPERATURE, weighting: 'ordinary' })).toContain('there is 1');
  });

  test('other needs can be set, but not to nothing', () => {
    const points = [beside(20, 20.1), beside(23.1, 23.2), beside(26, 26.3)];
    expect(fitCalibration(points, { ...TEMPERATURE, form: 'linear', needs: { gainSpan: 5 } }).form).toBe(
      'linear',
    );
    for (const gainSpan of [0, -1, Number.NaN])
      expect(
        codeOf(() => fitCalibration(points, { ...TEMPERATURE, form: 'linear', needs: { gainSpan } })),
      ).toBe('OUT_OF_DOMAIN');
  });
});
