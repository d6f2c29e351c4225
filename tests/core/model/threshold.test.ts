import { describe, expect, test } from 'vitest';
import {
  THRESHOLDS,
  thresholdOverridesSchema,
  thresholdsInForce,
} from '../../../services/core/model/threshold.js';

describe('thresholds', () => {
  test.each(Object.entries(THRESHOLDS))(
    '%s has its default within its range, its unit and its source',
    (name, entry) => {
      expect(entry.default).toBeGreaterThanOrEqual(entry.low);
      expect(entry.default).toBeLessThanOrEqual(entry.high);
      expect(
        name.endsWith(
          `_${entry.unit.replace('alarms/bed-month', 'per_bed_month').replace('°C/day', 'C_per_day').replace('°', '').replace('%', '').replace(' ', '_')}`,
        ),
      ).toBe(true);
      expect(entry.source.length).toBeGreaterThan(8);
    },
  );

  test('defaults: rates of false alarms for warmth, 95 %RH for 48 h for damp', () => {
    expect(thresholdsInForce()).toMatchObject({
      ...{ heating_unpack_per_bed_month: 0.0001, heating_check_per_bed_month: 0.1 },
      ...{ damp_check_RH: 95, damp_check_h: 48 },
    });
  });

  test('the look by hand never comes later than every two weeks', () => {
    expect(thresholdsInForce()['inspect_every_days']).toBe(14);
    expect(thresholdOverridesSchema.safeParse({ inspect_every_days: 7 }).success).toBe(true);
    expect(thresholdOverridesSchema.safeParse({ inspect_every_days: 15 }).success).toBe(false);
  });

  test('the bed wins over the site, and the site over the default', () => {
    const site = { damp_check_h: 36, damp_check_RH: 94 };
    const inForce = thresholdsInForce(site, { damp_check_h: 24 });
    expect(inForce).toMatchObject({ damp_check_h: 24, damp_check_RH: 94, damp_unpack_RH: 97 });
  });

  test('nothing set leaves the defaults, and they cannot be changed', () => {
    expect(thresholdsInForce(undefined, {}, { damp_check_h: undefined })).toEqual(thresholdsInForce());
    expect(Object.isFrozen(thresholdsInForce())).toBe(true);
  });

  test.each([
    ['an unknown name', { heating: 1 }],
    ['below the range', { damp_check_RH: 10 }],
    ['above the range', { damp_check_RH: 101 }],
    ['NaN', { damp_check_h: Number.NaN }],
    ['text', { damp_check_h: '48' }],
    ['null', { damp_check_h: null }],
  ])('%s is refused', (_, overrides) => {
    expect(thresholdOverridesSchema.safeParse(overrides).success).toBe(false);
  });
});
