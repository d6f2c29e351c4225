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
        name.endsWith(`_${entry.unit.replace('°C/day', 'C_per_day').replace('°', '').replace('%', '')}`),
      ).toBe(true);
      expect(entry.source.length).toBeGreaterThan(8);
    },
  );

  test('defaults are those suggested for a sand store: 1 °C for 48 h, 2 °C, 0.3 °C a day, 95 %RH for 48 h', () => {
    expect(thresholdsInForce()).toMatchObject({
      ...{ heating_check_C: 1, heating_check_h: 48, heating_unpack_C: 2, heating_rate_C_per_day: 0.3 },
      ...{ damp_check_RH: 95, damp_check_h: 48 },
    });
  });

  test('the bed wins over the site, and the site over the default', () => {
    const site = { heating_check_C: 1.2, damp_check_RH: 94 };
    const inForce = thresholdsInForce(site, { heating_check_C: 0.8 });
    expect(inForce).toMatchObject({ heating_check_C: 0.8, damp_check_RH: 94, heating_unpack_C: 2 });
  });

  test('nothing set leaves the defaults, and they cannot be changed', () => {
    expect(thresholdsInForce(undefined, {}, { heating_check_C: undefined })).toEqual(thresholdsInForce());
    expect(Object.isFrozen(thresholdsInForce())).toBe(true);
  });

  test.each([
    ['an unknown name', { heating: 1 }],
    ['below the range', { heating_check_C: 0.1 }],
    ['above the range', { damp_check_RH: 101 }],
    ['NaN', { damp_check_h: Number.NaN }],
    ['text', { damp_check_h: '48' }],
    ['null', { damp_check_h: null }],
  ])('%s is refused', (_, overrides) => {
    expect(thresholdOverridesSchema.safeParse(overrides).success).toBe(false);
  });
});
