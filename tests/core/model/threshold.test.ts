import { describe, expect, test } from 'vitest';
import {
  KEEPING_THRESHOLDS,
  keepingOverrides,
  keepingProblem,
} from '../../../services/core/model/keeping-threshold.js';
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

describe('thresholds of keeping', () => {
  test('are set beside those of the watch, and leave those as they are', () => {
    const set = { sand_dry_enough_percent: 0.4, curing_least_days: 5, damp_check_RH: 94 };
    expect(thresholdOverridesSchema.safeParse(set).success).toBe(true);
    expect(thresholdsInForce(set)).toEqual(thresholdsInForce({ damp_check_RH: 94 }));
    const bed = { curing_least_days: 6, curing_most_days: undefined };
    expect(keepingOverrides(set, undefined, bed)).toEqual({
      sand_dry_enough_percent: 0.4,
      curing_least_days: 6,
    });
  });

  test('that contradict each other, or a default, are told', () => {
    expect(keepingProblem(undefined, {})).toBeUndefined();
    expect(keepingProblem({ curing_least_days: 11 })).toBe(
      'expected curing_least_days not above curing_most_days, got 11 and 10',
    );
    expect(keepingProblem({ sand_median_least_mm: 1.5 }, { sand_median_most_mm: 2 })).toBeUndefined();
    expect(keepingProblem({ sand_median_least_mm: 2 }, { sand_median_most_mm: 1.5 })).toMatch(
      /got 2 and 1.5/,
    );
  });

  test('cover no name of the watch, and each says where it comes from', () => {
    for (const [name, { source }] of Object.entries(KEEPING_THRESHOLDS)) {
      expect(THRESHOLDS).not.toHaveProperty(name);
      expect(source).toMatch(/^(judgement|common practice, no source|from memory|published)/);
    }
  });
});
