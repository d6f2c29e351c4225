/**
 * Heat conduction against closed solutions, textbook examples and tables. Carslaw & Jaeger's clauses, Incropera &
 * DeWitt's printed answers and Oke's figures are from memory; numbers marked so were recomputed independently.
 */
import { describe, expect, test } from 'vitest';
import {
  centreRemainder,
  DAY_s,
  dampingDepth_m,
  diffusivityFromAmplitude_m2_s,
  diffusivityFromLag_m2_s,
  growingSourceRise_C,
  meanRemainder,
  type Shape,
  slowestMode,
  sourceRiseBelowSurface_C,
  steadySourceRise_C,
  stepArrivedShare,
  temperatureAfterStep_C,
  uniformSourceRise_C,
  waveAmplitudeShare,
  waveLag_s,
  YEAR_s,
} from '../../services/core/physics/index.js';

/** Half a unit of the last printed place, and a little for its own rounding. */
const printed = (places: number): number => 0.51 * 10 ** -places;

describe('periodic surface', () => {
  // Diffusivity, 1e-6 m2/s; damping depth of the day, cm, and the year, m. Diffusivities: table after de Vries 1963
  // and Smits et al. 2010 [seen]; Oke 1987, van Wijk & de Vries 1963 [from memory]. Depths [computed]; the last three
  // also printed by van Wijk & de Vries as 8.0, 15.2, 14.3 cm [from memory].
  test.each([
    ['loose sandy soil, dry', 0.19, 7.23, 1.382],
    ['the same, 0.2 of water', 0.99, 16.5, 3.154],
    ['the same, saturated', 0.85, 15.29, 2.922],
    ['tight sandy soil, dry', 0.2, 7.42, 1.417],
    ['the same, 0.15 of water', 1.2, 18.17, 3.47],
    ['the same, saturated', 1.0, 16.58, 3.17],
    ['sandy soil after Oke, dry', 0.234375, 8.03, 1.534],
    ['the same, saturated', 0.743243, 14.3, 2.732],
    ['sand after van Wijk & de Vries, dry', 0.2333, 8.01, 1.531],
    ['the same, 0.2 of water', 0.84, 15.2, 2.905],
    ['the same, 0.4 of water', 0.743, 14.29, 2.732],
  ])('%s, %d: %d cm, %d m', (_, diffusivity, day_cm, year_m) => {
    expect(Math.abs(dampingDepth_m(diffusivity * 1e-6, DAY_s) * 100 - day_cm)).toBeLessThan(printed(2));
    // Two rows print the year's depth to two places only.
    const places = year_m * 100 === Math.round(year_m * 100) ? 2 : 3;
    expect(Math.abs(dampingDepth_m(diffusivity * 1e-6, YEAR_s) - year_m)).toBeLessThan(printed(places));
  });

  test('the year reaches sqrt(365.25) = 19.1115 times as deep as the day', () => {
    const ratio = dampingDepth_m(1e-6, YEAR_s) / dampingDepth_m(1e-6, DAY_s);
    expect(Math.abs(ratio - 19.1115)).toBeLessThan(printed(4));
  });

  // Diffusivity 0.234375e-6 m2/s, the day, damping depth 0.0802856 m: share of the swing, lag in h [computed].
  test.each([
    [0.05, 0.536453, 2.37883],
    [0.1, 0.287782, 4.75766],
    [0.2, 0.0828182, 9.51533],
    [0.3, 0.0238336, 14.273],
    [0.5, 0.0019739, 23.7883],
  ])('at %d m: %d of the swing, %d h late', (depth_m, share, lag_h) => {
    const damping_m = dampingDepth_m(0.234375e-6, DAY_s);
    expect(Math.abs(damping_m - 0.0802856)).toBeLessThan(printed(7));
    expect(Math.abs(waveAmplitudeShare(depth_m, damping_m) / share - 1)).toBeLessThan(2.6e-5);
    expect(Math.abs(waveLag_s(depth_m, damping_m, DAY_s) / 3600 / lag_h - 1)).toBeLessThan(3e-6);
    expect(Math.abs(diffusivityFromAmplitude_m2_s(depth_m, share, DAY_s) / 0.234375e-6 - 1)).toBeLessThan(
      2e-5,
    );
    expect(Math.abs(diffusivityFromLag_m2_s(depth_m, lag_h * 3600, DAY_s) / 0.234375e-6 - 1)).toBeLessThan(
      5e-6,
    );
  });
});

describe('step of the surface', () => {
  /** Depth at which a temperature stands, by bisection. */
  function depthOf_m(
    wanted_C: number,
    before_C: number,
    surface_C: number,
    kappa: number,
    days: number,
  ): number {
    const at = (depth_m: number): number =>
      temperatureAfterStep_C(before_C, surface_C, stepArrivedShare(depth_m, kappa, days * DAY_s));
    let [low, high] = [0, 5];
    for (let halving = 0; halving < 60; halving += 1) {
      const middle = (low + high) / 2;
      if (at(middle) < wanted_C) low = middle;
      else high = middle;
    }
    return low;
  }

  test.each([
    // Inputs and 0.68 m seen; recomputed 0.677 m.
    ['water main (Incropera & DeWitt)', 20, -15, 0.52 / (2050 * 1840), 60, 0.677, 3],
    // Inputs seen; exact 0.8009 m (the book's chart reading gives 0.7776).
    ['water pipe (Çengel)', 15, -10, 0.15e-6, 90, 0.8009, 4],
    // Inputs seen; recomputed.
    ['ground under snow (Çengel)', 8, -8, 0.15e-6, 60, 0.8411, 4],
  ])('%s: freezing point at the depth', (_, before_C, surface_C, kappa, days, depth_m, places) => {
    expect(Math.abs(depthOf_m(0, before_C, surface_C, kappa, days) - depth_m)).toBeLessThan(printed(places));
  });
});

describe('point source', () => {
  const DRY = { conductivity_W_mK: 0.25, diffusivity_m2_s: 0.2e-6 };

  // Final rise, °C, of 0.3 W, 1 W and 3 W at 10, 20, 30 cm in dry sand, k 0.25 W/(m K) [computed for the storage notes].
  test.each([
    [0.3, 0.1, 0.95, 2],
    [0.3, 0.2, 0.48, 2],
    [0.3, 0.3, 0.32, 2],
    [1, 0.1, 3.2, 1],
    [1, 0.2, 1.6, 1],
    [1, 0.3, 1.1, 1],
    [3, 0.1, 9.5, 1],
    [3, 0.2, 4.8, 1],
    [3, 0.3, 3.2, 1],
  ])('%d W at %d m: %d °C in the end', (power_W, distance_m, rise_C, places) => {
    expect(Math.abs(steadySourceRise_C(power_W, DRY, distance_m, 1e10) - rise_C)).toBeLessThan(
      printed(places) + 0.003 * rise_C,
    );
  });

  // Share of the final rise after days, diffusivity 0.2e-6 m2/s [computed for the storage notes, whole per cent].
  test.each([
    [0.1, 1, 0.59],
    [0.1, 3, 0.76],
    [0.2, 1, 0.28],
    [0.2, 3, 0.53],
    [0.2, 7, 0.68],
    [0.3, 1, 0.11],
    [0.3, 3, 0.35],
    [0.3, 7, 0.54],
  ])('at %d m after %d days: %d of it', (distance_m, days, share) => {
    const final_C = 1 / (4 * Math.PI * 0.25 * distance_m);
    const found = steadySourceRise_C(1, DRY, distance_m, days * DAY_s) / final_C;
    expect(Math.abs(found - share)).toBeLessThan(printed(2));
  });

  test('a growing one, 0.5 W a day, at 0.2 m after 3 days', () => {
    // 0.5/86400 * 259200 / (4 pi 0.25 0.2) times (1 + 2 x^2) erfc x - 2 x exp(-x^2)/sqrt(pi), x = 0.2/(2 sqrt(0.05184))
    // [computed with mpmath].
    const found_C = growingSourceRise_C(0.5 / DAY_s, DRY, 0.2, 3 * DAY_s);
    expect(Math.abs(found_C / 0.792795846967909 - 1)).toBeLessThan(1e-12);
  });

  test('1 W at 0.3 m below a held and an insulated surface, seen 0.1 m aside at 0.2 m after 5 days', () => {
    // 1/(4 pi k) (erfc(a)/r -+ erfc(b)/R), r = 0.141421, R = 0.509902 [computed with mpmath].
    const at = (kind: 'held' | 'insulated'): number =>
      sourceRiseBelowSurface_C(
        { power_W: 1, start_s: 0, growth_s: 0 },
        DRY,
        { kind },
        { aside_m: 0.1, depth_m: 0.2, sourceDepth_m: 0.3 },
        5 * DAY_s,
      );
    expect(Math.abs(at('held') / 1.51409499076499 - 1)).toBeLessThan(1e-12);
    expect(Math.abs(at('insulated') / 1.78871863713389 - 1)).toBeLessThan(1e-12);
  });
});

describe('even heat in a body, its surface held', () => {
  // 20 W/m3, k 0.3 W/(m K): R, m; middle above surface of sphere, cylinder, slab, °C [computed].
  test.each([
    [0.1, 0.111111, 0.166667, 0.333333],
    [0.25, 0.694444, 1.041667, 2.083333],
    [0.5, 2.777778, 4.166667, 8.333333],
  ])('R %d m: %d, %d, %d °C', (radius_m, sphere_C, cylinder_C, slab_C) => {
    const rise = (shape: Shape): number => uniformSourceRise_C(shape, 20, 0.3, radius_m);
    expect(Math.abs(rise('sphere') - sphere_C)).toBeLessThan(printed(6));
    expect(Math.abs(rise('cylinder') - cylinder_C)).toBeLessThan(printed(6));
    expect(Math.abs(rise('slab') - slab_C)).toBeLessThan(printed(6));
  });

  test('composite wall: 1.5e6 W/m3, 75 W/(m K), 0.05 m: 25.0 °C (Incropera & DeWitt, inputs from memory)', () => {
    expect(uniformSourceRise_C('slab', 1.5e6, 75, 0.05)).toBeCloseTo(25, 10);
  });
});

describe('surface held at once', () => {
  // Fourier number; middle of slab, mean of slab, middle of cylinder, of sphere; full series [recomputed, six places].
  test.each([
    [0.05, 0.996869, 0.747687, 0.987099, 0.965999],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the sphere's 0.707100 is printed so, no root of one half.
    [0.1, 0.949305, 0.643177, 0.848355, 0.7071],
    [0.2, 0.772312, 0.495912, 0.501487, 0.277078],
    [0.3, 0.606804, undefined, 0.282487, 0.103532],
    [0.5, 0.370777, 0.23605, 0.08889, 0.014384],
    [1, 0.107977, 0.06874, undefined, undefined],
  ])('Fourier number %d', (fourier, slab, slabMean, cylinder, sphere) => {
    const near = (found: number, published: number | undefined): void => {
      if (published !== undefined) expect(Math.abs(found - published)).toBeLessThan(printed(6));
    };
    near(centreRemainder('slab', fourier), slab);
    near(meanRemainder('slab', fourier), slabMean);
    near(centreRemainder('cylinder', fourier), cylinder);
    near(centreRemainder('sphere', fourier), sphere);
  });
});

describe('slowest mode under a film: Incropera & DeWitt, table 5.1 (print from memory, roots recomputed)', () => {
  test.each([
    ['slab', 0.01, 0.0998, 1.0017],
    ['slab', 0.1, 0.3111, 1.0161],
    ['slab', 1, 0.8603, 1.1191],
    ['slab', 10, 1.4289, 1.262],
    ['slab', 100, 1.5552, 1.2731],
    ['cylinder', 0.01, 0.1412, 1.0025],
    ['cylinder', 0.1, 0.4417, 1.0246],
    ['cylinder', 1, 1.2558, 1.2071],
    ['cylinder', 10, 2.1795, 1.5677],
    ['cylinder', 100, 2.3809, 1.6015],
    ['sphere', 0.01, 0.173, 1.003],
    ['sphere', 0.1, 0.5423, 1.0298],
    ['sphere', 1, 1.5708, 1.2732],
    ['sphere', 10, 2.8363, 1.9249],
    ['sphere', 100, 3.1102, 1.999],
  ] as const)('%s, Biot number %d: %d, %d', (shape, biot, eigenvalue, weight) => {
    const mode = slowestMode(shape, biot);
    expect(Math.abs(mode.eigenvalue - eigenvalue)).toBeLessThan(printed(4));
    expect(Math.abs(mode.weight - weight)).toBeLessThan(printed(4));
  });

  test('pipeline wall (example 5.5): Bi 500 * 0.04 / 63.9, Fo 5.64; inputs seen, exact values recomputed', () => {
    const { eigenvalue, weight } = slowestMode('slab', (500 * 0.04) / 63.9);
    expect(Math.abs(eigenvalue - 0.531885)).toBeLessThan(printed(6));
    expect(Math.abs(weight - 1.046788)).toBeLessThan(printed(6));
    const remainder = weight * Math.exp(-(eigenvalue ** 2) * 5.64);
    expect(Math.abs(remainder - 0.212282)).toBeLessThan(printed(6));
    expect(Math.abs(60 - 80 * remainder - 43.02)).toBeLessThan(printed(2));
    expect(Math.abs(60 - 80 * remainder * Math.cos(eigenvalue) - 45.36)).toBeLessThan(printed(2));
  });
});
