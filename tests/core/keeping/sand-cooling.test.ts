import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coolingTime_s, type SandBody, sandCooling } from '../../../services/core/keeping/sand-cooling.js';
import { sandLimits } from '../../../services/core/keeping/sand-limits.js';
import { centreRemainder, DAY_s, diffusivityOfSand_m2_s } from '../../../services/core/physics/index.js';
import { refuses } from '../physics/refused.js';

const BED: SandBody = Object.freeze({ shape: 'block', length_cm: 150, width_cm: 100, height_cm: 75 });
const layer = (thickness_cm: number): SandBody => ({ shape: 'layer', thickness_cm });

describe('time to cool', () => {
  test('leaves just what is asked for', () => {
    const time_s = coolingTime_s(BED, 10, 2);
    const left = [0.75, 0.5, 0.375].map((radius) =>
      centreRemainder('slab', (diffusivityOfSand_m2_s(0.4, 0) * time_s) / radius ** 2),
    );
    expect(10 * left.reduce((product, share) => product * share, 1)).toBeCloseTo(2, 9);
  });

  // Dry sand of 0.2e-6 m2/s, last e-fold [science notes, computed as L^2 / (pi^2 kappa), to the day's tenth].
  test.each([
    [60, 2.1],
    [75, 3.3],
    [100, 5.9],
  ])('a slab of %d cm has a time constant of %d days', (height_cm, days) => {
    // Half a slab, so that the other two sides of a block do not count.
    const slab = layer(height_cm / 2);
    const efold_s = coolingTime_s(slab, 50, 1, 0.2e-6) - coolingTime_s(slab, 50, Math.E, 0.2e-6);
    expect(Math.abs(efold_s / DAY_s - days)).toBeLessThan(0.051);
  });

  test('grows with the warmth and with the square of the size', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 40, noNaN: true }),
        fc.integer({ min: 5, max: 100 }),
        (above, cm) => {
          const once = coolingTime_s(layer(cm), above, 2);
          expect(coolingTime_s(layer(cm), above + 1, 2)).toBeGreaterThan(once);
          expect(coolingTime_s(layer(2 * cm), above, 2) / once).toBeCloseTo(4, 6);
        },
      ),
      { seed: 101, numRuns: 100 },
    );
  });

  test('damp sand cools sooner', () => {
    expect(coolingTime_s(BED, 10, 2, 0.6e-6)).toBeLessThan(coolingTime_s(BED, 10, 2));
  });

  test('is none where it is cool already', () => {
    expect(coolingTime_s(BED, 2, 2)).toBe(0);
    expect(coolingTime_s(BED, -5, 2)).toBe(0);
    expect(coolingTime_s(BED, 0, 2)).toBe(0);
  });

  refuses('warmth', (above) => coolingTime_s(BED, above, 2), [-101, 101]);
  refuses('warmth that is left', (within) => coolingTime_s(BED, 10, within), [0, -1, 51]);
  refuses('thickness', (cm) => coolingTime_s(layer(cm), 10, 2), [0, 501]);
  refuses(
    'height',
    (height_cm) => coolingTime_s({ ...BED, shape: 'block', length_cm: 1, width_cm: 1, height_cm }, 10, 2),
    [0, 501],
  );
  refuses('diffusivity', (kappa) => coolingTime_s(BED, 10, 2, kappa), [0, 1]);
  refuses('diffusivity of cool sand', (kappa) => coolingTime_s(BED, 1, 2, kappa), [0, 1]);
});

describe('verdict', () => {
  const of = (sand_C: number, body: SandBody) => sandCooling({ sand_C, shadeMean_C: 24, body });

  test('cool sand is filled in, colder sand too', () => {
    expect(of(26, BED).verdict).toBe('fill');
    expect(of(20, BED).sentence).toBe(
      'Cool enough: the sand is 4.0 °C below the mean of the shade, and up to 2 °C above is taken.',
    );
  });

  test('a thin layer that was warmed by the sun waits until evening', () => {
    const found = of(38, layer(8));
    expect(found.verdict).toBe('wait until evening');
    expect(found.above_C).toBe(14);
    expect(found.sentence).toMatch(
      /^Wait until evening: the sand is 14\.0 °C above .* at least 9 hours until/,
    );
  });

  test('a bed that was filled warm takes days', () => {
    const found = of(38, BED);
    expect(found.verdict).toBe('wait longer');
    expect(found.sentence).toMatch(/at least \d+ days until it is within 2 °C\.$/);
  });

  test('goes by limits that were set', () => {
    const limits = sandLimits({ sand_warm_above_C: 15, sand_evening_h: 2 });
    expect(sandCooling({ sand_C: 38, shadeMean_C: 24, body: BED }, limits).verdict).toBe('fill');
    expect(sandCooling({ sand_C: 42, shadeMean_C: 24, body: layer(8) }, limits).verdict).toBe(
      'wait until evening',
    );
    expect(sandCooling({ sand_C: 60, shadeMean_C: 24, body: layer(8) }, limits).verdict).toBe('wait longer');
  });

  refuses('sand', (sand_C) => of(sand_C, BED).above_C, [-21, 91]);
  refuses('shade', (shadeMean_C) => sandCooling({ sand_C: 30, shadeMean_C, body: BED }).above_C, [-21, 61]);
});
