import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  conductivityOfSand_W_mK,
  DAMPNESSES,
  dampnessBetween,
  dampnessLimits,
  dampnessOf,
  diffusivityOfSand_m2_s,
  dryConductivityOfSand_W_mK,
  dryDensityOfSand_kg_m3,
  heatCapacityOfSand_J_m3K,
  kerstenNumber,
  mediumOfBed,
  saturatedConductivityOfSand_W_mK,
  waterContentFromMass,
} from '../../../services/core/physics/index.js';
import { codeOf, refuses, takes } from './refused.js';

const porosity = fc.double({ min: 0.25, max: 0.55, noNaN: true });
const filled = fc.double({ min: 0, max: 1, noNaN: true });

describe('from dry to saturated', () => {
  test('conductivity and heat grow with every drop of water', () => {
    fc.assert(
      fc.property(porosity, fc.double({ min: 0, max: 0.98, noNaN: true }), (n, share) => {
        const more = share + 0.01;
        expect(conductivityOfSand_W_mK(n, more * n)).toBeGreaterThan(conductivityOfSand_W_mK(n, share * n));
        expect(heatCapacityOfSand_J_m3K(n, more * n)).toBeGreaterThan(heatCapacityOfSand_J_m3K(n, share * n));
      }),
      { seed: 61, numRuns: 200 },
    );
  });

  test('the ends are dry and saturated sand', () => {
    fc.assert(
      fc.property(porosity, (n) => {
        expect(conductivityOfSand_W_mK(n, 0)).toBe(dryConductivityOfSand_W_mK(dryDensityOfSand_kg_m3(n)));
        expect(conductivityOfSand_W_mK(n, n)).toBeCloseTo(saturatedConductivityOfSand_W_mK(n), 12);
      }),
      { seed: 62, numRuns: 100 },
    );
  });

  test('diffusivity is conductivity over heat capacity', () => {
    fc.assert(
      fc.property(porosity, filled, (n, share) => {
        const product = diffusivityOfSand_m2_s(n, share * n) * heatCapacityOfSand_J_m3K(n, share * n);
        expect(product / conductivityOfSand_W_mK(n, share * n)).toBeCloseTo(1, 12);
      }),
      { seed: 63, numRuns: 100 },
    );
  });

  test('diffusivity is greatest about half full, so it cannot be read backwards beyond that', () => {
    const at = (share: number): number => diffusivityOfSand_m2_s(0.4, share * 0.4);
    expect(at(0.44)).toBeGreaterThan(at(0.2));
    expect(at(0.44)).toBeGreaterThan(at(1));
  });

  test('Kersten’s number has no step where the formula begins', () => {
    expect(Math.abs(kerstenNumber(0.05 - 1e-12) - kerstenNumber(0.05))).toBeLessThan(1e-10);
    expect(kerstenNumber(0)).toBe(0);
    expect(kerstenNumber(1)).toBe(1);
  });
});

describe('a bed of sand and roots', () => {
  test('without roots is its sand', () => {
    const { conductivity_W_mK, diffusivity_m2_s } = mediumOfBed(0.4, 0.03, 0);
    expect(conductivity_W_mK).toBeCloseTo(conductivityOfSand_W_mK(0.4, 0.03), 14);
    expect(diffusivity_m2_s / diffusivityOfSand_m2_s(0.4, 0.03)).toBeCloseTo(1, 12);
  });

  test('lies between sand and roots', () => {
    fc.assert(
      fc.property(porosity, filled, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (n, share, roots) => {
        const sand = conductivityOfSand_W_mK(n, share * n);
        const { conductivity_W_mK } = mediumOfBed(n, share * n, roots);
        expect(conductivity_W_mK).toBeGreaterThanOrEqual(Math.min(sand, 0.49) - 1e-12);
        expect(conductivity_W_mK).toBeLessThanOrEqual(Math.max(sand, 0.49) + 1e-12);
      }),
      { seed: 64, numRuns: 200 },
    );
  });
});

describe('dampness', () => {
  test.each([0, 0.1, 0.2, 0.3])('of loose sand by its water, share of roots %d', (roots) => {
    const read = (water: number): string =>
      dampnessOf(mediumOfBed(0.4, waterContentFromMass(0.4, water), roots).diffusivity_m2_s, roots);
    expect([0, 0.005, 0.0099].map(read)).toEqual(['dry', 'dry', 'dry']);
    expect([0.0101, 0.015, 0.0199].map(read)).toEqual(['damp', 'damp', 'damp']);
    expect([0.0201, 0.05, 0.1, 0.24].map(read)).toEqual(['wet', 'wet', 'wet', 'wet']);
  });

  test('each limit belongs to the wetter side', () => {
    const { damp_m2_s, wet_m2_s } = dampnessLimits();
    expect([damp_m2_s, wet_m2_s].map((limit) => dampnessOf(limit))).toEqual(['damp', 'wet']);
    expect([damp_m2_s, wet_m2_s].map((limit) => dampnessOf(limit * (1 - 1e-9)))).toEqual(['dry', 'damp']);
  });

  test('an uncertain diffusivity gives all that it may be', () => {
    expect(dampnessBetween(0.15e-6, 0.2e-6)).toEqual(['dry']);
    expect(dampnessBetween(0.25e-6, 0.4e-6)).toEqual(['dry', 'damp']);
    expect(dampnessBetween(0.4e-6, 1e-6)).toEqual(['damp', 'wet']);
    expect(dampnessBetween(0.1e-6, 2e-6)).toEqual([...DAMPNESSES]);
    expect(dampnessBetween(0.9e-6, 0.9e-6)).toEqual(['wet']);
  });

  refuses('diffusivity', dampnessOf, [0, 0.0499e-6, 3.01e-6, 0.2]);
  refuses('share of roots', (roots) => dampnessOf(0.2e-6, roots), [-0.1, 0.51]);
  refuses('limits: share of roots', dampnessLimits, [-0.1, 0.51]);
  refuses('lower end', (low) => dampnessBetween(low, 1e-6), [0, 1.1e-6]);
  refuses('upper end', (high) => dampnessBetween(0.2e-6, high), [0.1e-6, 4e-6]);
  takes('diffusivity', (kappa) => dampnessOf(kappa).length, [0.05e-6, 3e-6]);
});

describe('outside the domain', () => {
  const noPorosity = [0.24, 0.56, 40];
  refuses('dry density', dryConductivityOfSand_W_mK, [1099, 2001, 1.6]);
  refuses('saturated: porosity', saturatedConductivityOfSand_W_mK, noPorosity);
  refuses('density: porosity', dryDensityOfSand_kg_m3, noPorosity);
  refuses('conductivity: porosity', (n) => conductivityOfSand_W_mK(n, 0), noPorosity);
  refuses('conductivity: water', (water) => conductivityOfSand_W_mK(0.4, water), [-0.01, 0.41]);
  refuses('capacity: porosity', (n) => heatCapacityOfSand_J_m3K(n, 0), noPorosity);
  refuses('capacity: water', (water) => heatCapacityOfSand_J_m3K(0.4, water), [-0.01, 0.41]);
  refuses('diffusivity: water', (water) => diffusivityOfSand_m2_s(0.4, water), [-0.01, 0.41]);
  refuses('saturation', kerstenNumber, [-0.01, 1.01]);
  refuses('bed: roots', (roots) => mediumOfBed(0.4, 0, roots), [-0.01, 0.51]);
  refuses('water by mass', (water) => waterContentFromMass(0.4, water), [-0.01, 0.26, 5]);

  test('more water than pores is refused also where both could be', () => {
    expect(codeOf(() => conductivityOfSand_W_mK(0.3, 0.31))).toBe('OUT_OF_DOMAIN');
  });
});
