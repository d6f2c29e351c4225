import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dryingState } from '../../../services/core/keeping/sand-drying.js';
import { sandLimits } from '../../../services/core/keeping/sand-limits.js';
import { dampnessByWater, moistureOf, waterByVolume } from '../../../services/core/keeping/sand-moisture.js';
import type { Weighing } from '../../../services/core/model/sand-samples.js';
import {
  dampnessOf,
  diffusivityOfSand_m2_s,
  waterContentFromMass,
} from '../../../services/core/physics/index.js';
import { refuses } from '../physics/refused.js';
import { codeOf } from './some-sand.js';

/** 500 g of sand in a pan of 300 g on a kitchen balance. */
const weighing = (part: Partial<Weighing> = {}): Weighing =>
  Object.freeze({ wet_g: 804, dry_g: 800, container_g: 300, resolution_g: 0.1, way: 'oven', ...part });

describe('water', () => {
  test('is what was lost over what is left of the sand', () => {
    expect(moistureOf(weighing()).water_percent).toBeCloseTo(0.8, 12);
  });

  test('does not go by the container', () => {
    const bare = moistureOf(weighing({ wet_g: 504, dry_g: 500, container_g: 0 }));
    expect(bare.water_percent).toBe(moistureOf(weighing()).water_percent);
  });

  test('uncertainty of the weighing is that of its three steps [JCGM 100 5.1.2, against central differences]', () => {
    const masses = fc.record({
      container_g: fc.double({ min: 0, max: 500, noNaN: true }),
      sand_g: fc.double({ min: 50, max: 900, noNaN: true }),
      water_g: fc.double({ min: 0, max: 90, noNaN: true }),
    });
    const water = (wet: number, dry: number, container: number): number =>
      (100 * (wet - dry)) / (dry - container);
    fc.assert(
      fc.property(masses, ({ container_g, sand_g, water_g }) => {
        const dry = container_g + sand_g;
        const wet = dry + water_g;
        const h = 1e-3;
        const slopes = [
          water(wet + h, dry, container_g) - water(wet - h, dry, container_g),
          water(wet, dry + h, container_g) - water(wet, dry - h, container_g),
          water(wet, dry, container_g + h) - water(wet, dry, container_g - h),
        ].map((difference) => difference / (2 * h));
        const found = moistureOf(weighing({ wet_g: wet, dry_g: dry, container_g, resolution_g: 1 }));
        const expected = Math.hypot(...slopes) / Math.sqrt(12);
        // Of a difference of thousandths in sums of hundreds, six digits are left.
        expect(Math.abs(found.contributions.weighing_percent / expected - 1)).toBeLessThan(1e-5);
      }),
      { seed: 91, numRuns: 200 },
    );
  });

  test('a balance of whole grams and 500 g resolves 0.2 % at best: 1 g of 500 g', () => {
    const { uncertainty_percent } = moistureOf(weighing({ wet_g: 800, resolution_g: 1 }));
    expect(uncertainty_percent).toBeCloseTo((0.2 / Math.sqrt(12)) * Math.SQRT2, 6);
  });

  test('a pan is less certain than an oven', () => {
    const [oven, pan] = (['oven', 'pan'] as const).map((way) => moistureOf(weighing({ way })));
    expect(oven?.contributions.drying_percent).toBeCloseTo(0.8 * 0.027, 12);
    expect(pan?.contributions.drying_percent).toBeCloseTo(0.08, 12);
    expect(pan?.method).toContain('D4959');
  });
});

describe('verdict', () => {
  const of = (water_g: number, part: Partial<Weighing> = {}) =>
    moistureOf(weighing({ wet_g: 800 + water_g, ...part }));

  test.each([
    [1, 'dry', ['dry'], 'met', 'Dry enough: 0.20 %'],
    [4, 'dry', ['dry'], 'not met', 'Nearly dry: 0.80 %'],
    [7, 'damp', ['damp'], 'not met', 'Damp: 1.40 %'],
    [20, 'wet', ['wet'], 'not met', 'Wet: 4.00 %'],
  ])('%d g of water in 500 g', (water_g, dampness, possible, dryEnough, sentence) => {
    const found = of(water_g);
    expect([found.dampness, found.possible, found.dryEnough]).toEqual([dampness, possible, dryEnough]);
    expect(found.sentence).toContain(sentence);
  });

  test('is not sure where the uncertainty spans the limit', () => {
    const found = of(2, { resolution_g: 1 });
    expect(found.dryEnough).toBe('unknown');
    expect(found.sentence).toBe(
      'Not sure: 0.40 % of water, give or take 0.165 (k = 2); up to 0.5 % is dry enough to fill in. Weigh a larger sample.',
    );
  });

  test('says all that it may be', () => {
    expect(of(5.2, { resolution_g: 1 }).possible).toEqual(['dry', 'damp']);
    expect(of(7, { resolution_g: 10 }).possible).toEqual(['dry', 'damp', 'wet']);
  });

  test('each limit belongs to the wetter side, as where warmth tells dampness', () => {
    const limits = sandLimits();
    const byWarmth = (percent: number): string =>
      dampnessOf(diffusivityOfSand_m2_s(0.4, waterContentFromMass(0.4, percent / 100)));
    for (const percent of [0, 0.999, limits.sand_damp_from_percent, 1.999, limits.sand_wet_from_percent, 10])
      expect(dampnessByWater(percent)).toBe(byWarmth(percent));
  });

  test('a sample that lost nothing may come out a step below 0', () => {
    const found = of(-0.1);
    expect(found.water_percent).toBeCloseTo(-0.02, 12);
    expect([found.dampness, found.dryEnough]).toEqual(['dry', 'met']);
  });
});

describe('weighings that cannot be', () => {
  test.each<[string, Partial<Weighing>]>([
    ['dried above moist', { wet_g: 799.8 }],
    ['no sand', { dry_g: 300 }],
    ['less than the container', { dry_g: 200 }],
    ['a container below 0', { container_g: -1 }],
    ['no step', { resolution_g: 0 }],
    ['moist that is no number', { wet_g: Number.NaN }],
    ['dried that is no number', { dry_g: Number.NaN }],
    ['endless', { wet_g: Number.POSITIVE_INFINITY }],
  ])('%s is refused', (_, part) => {
    expect(codeOf(() => moistureOf(weighing(part)))).toBe('OUT_OF_DOMAIN');
  });
});

describe('by volume', () => {
  test('1 % in sand of 1600 kg/m3 is 0.016', () => {
    expect(waterByVolume(1, 1600)).toBeCloseTo(0.016, 12);
  });

  test('agrees with the porosity that the density has', () => {
    expect(waterByVolume(5, 0.6 * 2660)).toBeCloseTo(waterContentFromMass(0.4, 0.05), 12);
  });

  refuses('density', (density) => waterByVolume(1, density), [1099, 2001, 1.6]);
  refuses('water', (water) => waterByVolume(water, 1600), [-0.1, 25]);
});

describe('drying out', () => {
  const state = (masses_g: readonly number[], resolution_g = 0.1): string =>
    dryingState({ masses_g: Object.freeze([...masses_g]), container_g: 300, resolution_g });

  test.each([
    ['no weighing', [], 'unknown'],
    ['one weighing', [800], 'unknown'],
    ['still losing', [810, 804, 803.4], 'losing'],
    ['0.1 % of 500 g', [800, 799.5], 'constant'],
    ['one step more', [800, 799.4], 'losing'],
    ['the same twice', [810, 800, 800], 'constant'],
    ['heavier than before', [810, 800, 800.8], 'gained'],
  ])('%s', (_, masses_g, expected) => {
    expect(state(masses_g)).toBe(expected);
  });

  test('cannot be told on a balance with too coarse a step', () => {
    expect(state([800, 800], 1)).toBe('unknown');
    expect(state([800, 797], 1)).toBe('losing');
  });

  test.each([300, 299, Number.NaN, 2e6])('a mass of %d g is refused', (mass_g) => {
    expect(codeOf(() => state([800, mass_g]))).toBe('OUT_OF_DOMAIN');
  });

  test.each([0, Number.NaN])('a step of %d g is refused', (resolution_g) => {
    expect(codeOf(() => state([800, 799], resolution_g))).toBe('OUT_OF_DOMAIN');
  });
});
