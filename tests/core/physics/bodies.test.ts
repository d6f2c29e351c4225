/** Bodies of one shape: heat released evenly, a surface held at once, a film around. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { besselJ0, besselJ1, zeroOfJ0 } from '../../../services/core/physics/bessel.js';
import {
  centreRemainder,
  centreRemainderUnderFilm,
  fourierNumber,
  meanRemainder,
  type Shape,
  slowestMode,
  stepArrivedShare,
  uniformSourceRise_C,
} from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const SHAPES: readonly Shape[] = ['slab', 'cylinder', 'sphere'];
const DIMENSION = { slab: 1, cylinder: 2, sphere: 3 } as const;

describe.each(SHAPES)('heat released evenly in a %s', (shape) => {
  test('leaves through the surface', () => {
    const step_m = 1e-7;
    const slope_C_m = uniformSourceRise_C(shape, 20, 0.3, 0.5, 0.5 - step_m) / step_m;
    expect(Math.abs((0.3 * slope_C_m) / ((20 * 0.5) / DIMENSION[shape]) - 1)).toBeLessThan(1e-6);
  });

  test('is warmest in the middle and nothing at the surface', () => {
    expect(uniformSourceRise_C(shape, 20, 0.3, 0.5, 0.5)).toBe(0);
    expect(uniformSourceRise_C(shape, 20, 0.3, 0.5)).toBeGreaterThan(
      uniformSourceRise_C(shape, 20, 0.3, 0.5, 0.1),
    );
  });
});

describe('heat released evenly, outside the domain', () => {
  refuses('release', (q) => uniformSourceRise_C('slab', q, 0.3, 0.5), [1.1e9]);
  refuses('conductivity', (k) => uniformSourceRise_C('slab', 20, k, 0.5), [0, -0.3]);
  refuses('radius', (radius) => uniformSourceRise_C('slab', 20, 0.3, radius), [0, -0.5]);
  refuses('place', (place) => uniformSourceRise_C('slab', 20, 0.3, 0.5, place), [-0.01, 0.51]);
});

describe.each(SHAPES)('a %s whose surface is held at once', (shape) => {
  test('is as it was in the middle at first, and loses heat through its skin', () => {
    const fourier = 0.001;
    expect(Math.abs(centreRemainder(shape, fourier) - 1)).toBeLessThan(1e-13);
    // The skin of a deep solid: surface over volume times 2 sqrt(Fo / pi), less what a bent surface spreads.
    const skin = 2 * DIMENSION[shape] * Math.sqrt(fourier / Math.PI);
    expect(Math.abs(meanRemainder(shape, fourier) - (1 - skin))).toBeLessThan(0.0031);
  });

  test('cools on and on, the middle behind the mean', () => {
    let last = { centre: 2, mean: 2 };
    for (const fourier of [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5]) {
      const now = { centre: centreRemainder(shape, fourier), mean: meanRemainder(shape, fourier) };
      expect(now.centre).toBeLessThan(last.centre);
      expect(now.mean).toBeLessThan(last.mean);
      expect(now.mean).toBeLessThan(now.centre);
      last = now;
    }
  });

  test('has come to the surface’s temperature in the end', () => {
    expect(centreRemainder(shape, 1e6)).toBe(0);
    expect(meanRemainder(shape, 1e6)).toBe(0);
  });

  refuses('centre: Fourier number', (fourier) => centreRemainder(shape, fourier), [0, -1, 0.0009, 1.1e6]);
  refuses('mean: Fourier number', (fourier) => meanRemainder(shape, fourier), [0, -1, 0.0009, 1.1e6]);
  takes('mean: Fourier number', (fourier) => meanRemainder(shape, fourier), [0.001, 1e6]);
});

test('a slab cools early on as two deep solids, back to back', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.002, max: 0.1, noNaN: true }), (fourier) => {
      const fromOneFace = stepArrivedShare(1, 1e-6, fourier * 1e6);
      // Images of a third and fourth face: below 1e-6 by then.
      expect(Math.abs(centreRemainder('slab', fourier) - (1 - 2 * fromOneFace))).toBeLessThan(1e-6);
    }),
    { seed: 51, numRuns: 100 },
  );
});

test('what a sphere loses is what flows out of it: its mean falls by three times the slope', () => {
  // Differences of the mean against the exact flux series 6 sum exp(-n^2 pi^2 Fo).
  for (const fourier of [0.05, 0.2, 0.6]) {
    const step = 1e-5;
    const fall =
      (meanRemainder('sphere', fourier - step) - meanRemainder('sphere', fourier + step)) / (2 * step);
    let flux = 0;
    for (let n = 1; n < 30; n += 1) flux += 6 * Math.exp(-((n * Math.PI) ** 2) * fourier);
    expect(Math.abs(fall / flux - 1)).toBeLessThan(1e-6);
  }
});

describe('Fourier number', () => {
  test('0.6 m of dry sand, diffusivity 0.2e-6, 5.2 days: about one', () => {
    expect(fourierNumber(0.2e-6, 450_000, 0.3)).toBeCloseTo(1, 12);
  });
  refuses('diffusivity', (kappa) => fourierNumber(kappa, 3600, 0.3), [0, -1e-7]);
  refuses('elapsed', (elapsed) => fourierNumber(2e-7, elapsed, 0.3), [-1]);
  refuses('radius', (radius) => fourierNumber(2e-7, 3600, radius), [0, -0.3]);
});

describe.each(SHAPES)('a %s under a film', (shape) => {
  test('of a thick quilt is a lump: the film’s conductance over its heat', () => {
    // Eigenvalue squared tends to dimension times Biot number.
    const { eigenvalue, weight } = slowestMode(shape, 1e-4);
    expect(Math.abs(eigenvalue ** 2 / (DIMENSION[shape] * 1e-4) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(weight - 1)).toBeLessThan(1e-4);
  });

  test('of a gale is as one whose surface is held', () => {
    const fourier = 0.5;
    const held = centreRemainder(shape, fourier);
    expect(Math.abs(centreRemainderUnderFilm(shape, 1e4, fourier) / held - 1)).toBeLessThan(1e-3);
  });

  test('one term is within 2 % of all at its least Fourier number', () => {
    const all = centreRemainder(shape, 0.2);
    expect(Math.abs(centreRemainderUnderFilm(shape, 1e4, 0.2) / all - 1)).toBeLessThan(0.02);
  });

  test('the better the film, the faster', () => {
    let last = 0;
    for (const biot of [1e-4, 0.01, 0.3, 1, 3, 10, 1e4]) {
      const { eigenvalue } = slowestMode(shape, biot);
      expect(eigenvalue).toBeGreaterThan(last);
      last = eigenvalue;
    }
  });

  refuses('Biot number', (biot) => slowestMode(shape, biot), [0, -1, 1.1e4]);
  refuses('Fourier number', (fourier) => centreRemainderUnderFilm(shape, 1, fourier), [0, 0.19]);
});

describe('Bessel functions', () => {
  test('of order 1 is the falling slope of order 0', () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 200, noNaN: true }), (x) => {
        const slope = (besselJ0(x + 1e-5) - besselJ0(x - 1e-5)) / 2e-5;
        expect(Math.abs(slope + besselJ1(x))).toBeLessThan(1e-8);
      }),
      { seed: 52, numRuns: 100 },
    );
  });

  test('zeros are zeros, in order, about pi apart', () => {
    for (let number = 1; number <= 300; number += 1) {
      const zero = zeroOfJ0(number);
      expect(Math.abs(besselJ0(zero))).toBeLessThan(2e-14);
      expect(Math.abs(zero / Math.PI - (number - 0.25))).toBeLessThan(0.016);
    }
  });

  refuses('argument', besselJ0, [1001, -1001]);
  refuses('order 1: argument', besselJ1, [1001]);
  refuses('number of the zero', zeroOfJ0, [0, -1, 301]);
});
