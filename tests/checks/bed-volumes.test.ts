/** Planned beds against what practice gives for them (common practice, no source) and against closed conduction. */
import { describe, expect, test } from 'vitest';
import { blockCentreRise_C, type Sides_m } from '../../services/core/keeping/block-warmth.js';
import { type Plan, planBed } from '../../services/core/keeping/index.js';
import { uniformSourceRise_C } from '../../services/core/physics/index.js';

const STEPS = [150, 100, 50].map((length) => ({ length, width: 60, height: 25 }));
const stepped = (): Plan => planBed({ kind: 'stepped-pit', steps: STEPS, probes: 0 });
const box = (length: number, width: number, height: number): Plan =>
  planBed({ kind: 'box', steps: [{ length, width, height }], probes: 0 });

describe('volumes', () => {
  test('three steps of 25 cm, 60 cm wide, 150, 100 and 50 cm long: 225 + 150 + 75 = 450 L', () => {
    expect(stepped().volume_L).toEqual({ steps: [225, 150, 75], total: 450 });
    expect(stepped().digging_L).toBe(450);
  });

  test('a box of 100 x 50 x 75 cm inside is 375 L, of 100 x 60 x 60 cm 360 L; nothing is dug', () => {
    expect(box(100, 50, 75).volume_L.total).toBe(375);
    expect(box(100, 60, 60).volume_L.total).toBe(360);
    expect(box(100, 60, 60).digging_L).toBe(0);
  });
});

describe('roots and sand', () => {
  /** Practice gives round numbers for roots of any size. */
  const PRACTICE = 0.12;

  test('that pit takes about 350 roots and 35 buckets of ten litres', () => {
    const { roots, sand_L, buckets } = stepped();
    expect(Math.abs(roots / 350 - 1)).toBeLessThan(PRACTICE);
    expect(Math.abs(sand_L / 350 - 1)).toBeLessThan(PRACTICE);
    expect(Math.abs(buckets / 35 - 1)).toBeLessThan(PRACTICE);
  });

  test.each([
    ['pit', stepped],
    ['box', () => box(100, 50, 75)],
  ])('a %s holds 120 to 220 kg of roots in a m3 [computed from layers]', (_, plan) => {
    const { roots_kg, volume_L } = plan();
    const kg_m3 = (roots_kg / volume_L.total) * 1000;
    expect(kg_m3).toBeGreaterThan(120);
    expect(kg_m3).toBeLessThan(220);
  });

  test('sand and roots fill the bed, and sand weighs 1.6 kg a litre (de Vries 1963, loose, to its printed digits)', () => {
    const { sand_L, sand_kg, roots, root, volume_L } = stepped();
    expect(sand_L + roots * root.volume_L).toBeCloseTo(volume_L.total, 9);
    expect(sand_kg / sand_L).toBeCloseTo(1.6, 2);
  });
});

describe('warmth of a block that releases heat evenly', () => {
  // W/m3 at 0.35 W/(m K): the rises that follow from Carslaw & Jaeger 1959, 6.2, printed to a tenth [computed].
  test.each<[Sides_m, number, number]>([
    [[1, 1.5, 0.75], 120 * 0.09, 1.6],
    [[1, 1.5, 0.75], 120 * 0.17, 2.9],
    [[1, 1.5, 0.75], 200 * 0.17, 4.9],
    [[1, 1.5, 0.6], 120 * 0.09, 1.2],
    [[1, 1.5, 0.6], 200 * 0.09, 1.9],
    [[1, 1.5, 0.6], 200 * 0.17, 3.6],
  ])('of %j m with %d W/m3: %d °C', (sides, release_W_m3, rise_C) => {
    // Printed to a tenth, from inputs rounded themselves.
    expect(Math.abs(blockCentreRise_C(release_W_m3, 0.35, sides) - rise_C)).toBeLessThan(0.11);
  });

  test('the order of the sides does not matter', () => {
    const rise = blockCentreRise_C(20, 0.3, [1.5, 0.6, 0.75]);
    expect(blockCentreRise_C(20, 0.3, [0.6, 0.75, 1.5])).toBe(rise);
  });

  test('of a wide plate is that of the slab, of a long bar more than of the cylinder within and less than around', () => {
    // Edges ten thicknesses away leave e^-15 of a difference; the cut series is good to 1e-4.
    const slab = uniformSourceRise_C('slab', 20, 0.3, 0.25);
    expect(Math.abs(blockCentreRise_C(20, 0.3, [5, 5, 0.5]) / slab - 1)).toBeLessThan(2e-4);
    const bar = blockCentreRise_C(20, 0.3, [50, 0.5, 0.5]);
    expect(bar).toBeGreaterThan(uniformSourceRise_C('cylinder', 20, 0.3, 0.25));
    expect(bar).toBeLessThan(uniformSourceRise_C('cylinder', 20, 0.3, 0.25 * Math.SQRT2));
  });

  test('of a cube lies between the balls within and around it', () => {
    const cube = blockCentreRise_C(20, 0.3, [1, 1, 1]);
    expect(cube).toBeGreaterThan(uniformSourceRise_C('sphere', 20, 0.3, 0.5));
    expect(cube).toBeLessThan(uniformSourceRise_C('sphere', 20, 0.3, 0.5 * Math.sqrt(3)));
  });

  test.each<[number, number, Sides_m]>([
    [Number.NaN, 0.3, [1, 1, 1]],
    [-1, 0.3, [1, 1, 1]],
    [20, 0, [1, 1, 1]],
    [20, 0.3, [1, 0, 1]],
    [20, 0.3, [1, 1, Number.NaN]],
  ])('release %d, conductivity %d, sides %j are refused', (release_W_m3, conductivity_W_mK, sides) => {
    expect(() => blockCentreRise_C(release_W_m3, conductivity_W_mK, sides)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });
});

describe('warmth of planned beds, in order with the simulated ones (DEVELOPERS.md: warmest above the wall)', () => {
  // 5 % to 95 % of days from day 15, with the season's weather; the plan knows none. So only the ranges must meet.
  const meets = (plan: Plan, low_C: number, high_C: number): void => {
    const { low, mid, high } = plan.warmth_above_ground_C ?? { low: 99, mid: 99, high: 99 };
    expect(low).toBeLessThan(mid);
    expect(mid).toBeLessThan(high);
    expect(low).toBeLessThan(high_C);
    expect(high).toBeGreaterThan(low_C);
    expect(mid).toBeGreaterThan(low_C / 2);
    expect(mid).toBeLessThan(high_C * 1.5);
  };

  test('a pit of 150 x 100 and 150 x 60 cm: 1.3 to 2.1 °C', () => {
    const steps = [100, 60].map((width) => ({ length: 150, width, height: 25 }));
    meets(planBed({ kind: 'stepped-pit', steps, probes: 0 }), 1.3, 2.1);
  });

  test('a box of 100 x 50 x 75 cm: 0.9 to 2.8 °C', () => {
    meets(box(100, 50, 75), 0.9, 2.8);
  });
});
