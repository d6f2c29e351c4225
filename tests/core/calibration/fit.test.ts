import { describe, expect, test } from 'vitest';
import { fitCalibration } from '../../../services/core/calibration/index.js';
import { calibrationFitSchema } from '../../../services/core/model/calibration.js';
import { codeOf } from '../physics/refused.js';
import { along, beside, messageOf, QUIET } from './some-points.js';

const TEMPERATURE = { quantity: 'temperature' } as const;
const HUMIDITY = { quantity: 'humidity' } as const;
const SIX = [2, 10, 18, 26, 34, 42] as const;

describe('what counts how much', () => {
  test('fixed points count by their own uncertainty', () => {
    const points = [
      beside(0.4, 0, { source: 'ice-point', referenceUncertainty: 0.01 }),
      beside(100, 100, { source: 'boiling-point', referenceUncertainty: 1 }),
    ];
    const fit = fitCalibration(points, { ...TEMPERATURE, form: 'offset' });
    expect(fit.weighting).toBe('weighted');
    expect(fit.coefficients[0]).toBeCloseTo(-0.4, 3);
    expect(fit.commonUncertainty).toBe(0);
  });

  test('the same ice three times is no surer than once', () => {
    const ice = beside(0.4, 0, { source: 'ice-point' });
    const fit = fitCalibration([ice, beside(0.4, 0, { source: 'ice-point' }), ice], TEMPERATURE);
    expect(Math.sqrt(fit.covariance[0]?.[0] ?? 0)).toBeCloseTo(0.05, 12);
  });

  test('its scatter adds to a point’s uncertainty as s/sqrt(n)', () => {
    const fit = fitCalibration(
      [beside(25.4, 25, { indicatedScatter: 0.4, indicatedCount: 16 })],
      TEMPERATURE,
    );
    expect(Math.sqrt(fit.covariance[0]?.[0] ?? 0)).toBeCloseTo(Math.hypot(0.05, 0.1), 12);
    expect(fit.repeatability).toBeCloseTo(0.4, 12);
  });

  test('one instrument’s uncertainty stays however many points there are', () => {
    const fit = fitCalibration(
      along(SIX, () => 0.3, QUIET),
      TEMPERATURE,
    );
    expect(fit.commonUncertainty).toBeCloseTo(0.05, 12);
    expect(
      fitCalibration(
        along(SIX, () => 0.3),
        { ...TEMPERATURE, commonUncertainty: 0.02 },
      ).commonUncertainty,
    ).toBe(0.02);
    expect(fitCalibration([beside(20, 20.1), beside(21, 21.1)], TEMPERATURE).commonUncertainty).toBeCloseTo(
      0.05,
      12,
    );
  });

  test('the centre is the rounded mean, or the one given', () => {
    expect(
      fitCalibration(
        along([19.9, 20.8], () => 0.3),
        TEMPERATURE,
      ).centre,
    ).toBe(20);
    expect(
      fitCalibration(
        along([19.9, 20.8], () => 0.3),
        { ...TEMPERATURE, centre: 0 },
      ).centre,
    ).toBe(0);
  });
});

describe('the record', () => {
  test('goes through JSON and its schema unchanged', () => {
    const points = along(SIX, (t) => 0.3 - 0.01 * t, [0.01, -0.02, 0.01, 0.6, -0.02, 0.01]);
    for (const options of [
      TEMPERATURE,
      { ...TEMPERATURE, weighting: 'weighted' } as const,
      {
        ...TEMPERATURE,
        resolution: 0.1,
        repeatability: 0.02,
        leaveOut: [{ index: 3, reason: 'lid was open' }],
      },
    ]) {
      const fit = fitCalibration(points, options);
      expect(calibrationFitSchema.parse(JSON.parse(JSON.stringify(fit)))).toEqual(fit);
    }
  });

  test('of a perfect fit goes through JSON too', () => {
    const fit = fitCalibration(
      along(SIX, () => 0.25),
      TEMPERATURE,
    );
    expect(calibrationFitSchema.parse(JSON.parse(JSON.stringify(fit)))).toEqual(fit);
  });

  test('keeps why a point was left out, and what it would have said', () => {
    const points = along(SIX, () => 0.3, [0, 0, 0, 2, 0, 0]);
    const fit = fitCalibration(points, {
      ...TEMPERATURE,
      leaveOut: [{ index: 3, reason: ' lid was open ' }],
    });
    expect(fit.leftOut).toHaveLength(1);
    expect(fit.leftOut[0]).toMatchObject({ index: 3, reason: 'lid was open' });
    expect(fit.leftOut[0]?.residual).toBeCloseTo(2, 12);
    expect(fit.residuals.map(({ index }) => index)).toEqual([0, 1, 2, 4, 5]);
    expect(fit.coefficients[0]).toBeCloseTo(0.3, 12);
  });

  test.each([
    ['coefficients', { coefficients: [0.1, 0.2, 0.3] }],
    ['coefficients', { coefficients: [] }],
    ['a covariance that is not square', { covariance: [[1, 0], [0]] }],
    [
      'a covariance that is not symmetric',
      {
        covariance: [
          [1, 0.5],
          [0.4, 1],
        ],
      },
    ],
    [
      'a variance below 0',
      {
        covariance: [
          [-1, 0],
          [0, 1],
        ],
      },
    ],
    ['a range upside down', { range: [30, 10] }],
    ['a number that is none', { centre: Number.NaN }],
    ['a key too many', { colour: 'red' }],
  ])('with wrong %s is refused', (_, wrong) => {
    const fit = fitCalibration(
      along(SIX, (t) => 0.3 - 0.01 * t, QUIET),
      TEMPERATURE,
    );
    expect(calibrationFitSchema.safeParse(fit).success).toBe(true);
    expect(calibrationFitSchema.safeParse({ ...fit, ...wrong }).success).toBe(false);
  });
});

describe('what is refused', () => {
  const GOOD = along(SIX, () => 0.3, QUIET);

  test('no points, or none that is not left out', () => {
    expect(codeOf(() => fitCalibration([], TEMPERATURE))).toBe('TOO_FEW_SAMPLES');
    const leaveOut = [{ index: 0, reason: 'wet' }];
    expect(codeOf(() => fitCalibration([beside(20, 20)], { ...TEMPERATURE, leaveOut }))).toBe(
      'TOO_FEW_SAMPLES',
    );
  });

  test.each([
    ['indicated NaN', { indicated: Number.NaN }],
    ['reference infinite', { reference: Number.POSITIVE_INFINITY }],
    ['uncertainty 0', { referenceUncertainty: 0 }],
    ['uncertainty NaN', { referenceUncertainty: Number.NaN }],
    ['scatter below 0', { indicatedScatter: -0.1 }],
    ['half a reading', { indicatedCount: 0.5 }],
    ['no readings', { indicatedCount: 0 }],
    ['reference in kelvin', { reference: 293.25 }],
    ['a reference no probe is calibrated at', { reference: 161, indicated: 161 }],
    ['a value that is in another unit', { reference: -61, indicated: -61 }],
    ['an unknown source', { source: 'guess' as 'file' }],
    ['a time that is no whole number', { at: 1.5 }],
    ['an empty label', { label: ' ' }],
  ])('%s, and the point is named', (_, wrong) => {
    const points = [...GOOD, beside(20, 20.1, wrong)];
    expect(codeOf(() => fitCalibration(points, TEMPERATURE))).toBe('OUT_OF_DOMAIN');
    expect(messageOf(points, TEMPERATURE)).toMatch(/^point 6: .*expected/);
  });

  test('a humidity that is a fraction', () => {
    expect(messageOf([beside(74.1, 0.753)], HUMIDITY)).toBe(
      'point 0: reference and indicated: expected at most 50 %RH apart and in the same unit, got 73.3 %RH',
    );
  });

  test.each([
    ['an index beyond', [{ index: 6, reason: 'wet' }]],
    ['an index below 0', [{ index: -1, reason: 'wet' }]],
    ['half an index', [{ index: 0.5, reason: 'wet' }]],
    ['NaN', [{ index: Number.NaN, reason: 'wet' }]],
    [
      'an index twice',
      [
        { index: 1, reason: 'wet' },
        { index: 1, reason: 'wet' },
      ],
    ],
    ['no reason', [{ index: 1, reason: ' ' }]],
  ])('leaving out %s', (_, leaveOut) => {
    expect(codeOf(() => fitCalibration(GOOD, { ...TEMPERATURE, leaveOut }))).toBe('OUT_OF_DOMAIN');
  });

  test.each([
    { commonUncertainty: -0.1 },
    { commonUncertainty: Number.NaN },
    { resolution: -0.1 },
    { resolution: Number.POSITIVE_INFINITY },
    { repeatability: Number.NaN },
    { centre: Number.NaN },
  ])('options %j', (options) => {
    expect(codeOf(() => fitCalibration(GOOD, { ...TEMPERATURE, ...options }))).toBe('OUT_OF_DOMAIN');
  });
});
