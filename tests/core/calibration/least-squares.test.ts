import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Degree,
  fitPolynomial,
  polynomialAt,
  polynomialUncertaintyAt,
} from '../../../services/core/calibration/index.js';
import { codeOf } from '../physics/refused.js';

const X = Object.freeze([0.3, 5.1, 12.4, 20.2, 31.7, 40.9]);
const Y = Object.freeze([-0.21, -0.18, -0.05, 0.02, 0.14, 0.31]);
const U = Object.freeze([0.02, 0.05, 0.03, 0.02, 0.08, 0.04]);

/** The oracle's 15 digits, less what a few hundred roundings take. */
const CLOSE = 1e-12;
const off = (found: number | undefined, expected: number): number =>
  Math.abs((found ?? Number.NaN) / expected - 1);

describe('a weighted fit', () => {
  // Normal equations in 40 digits [mpmath]: degree, centre, coefficients, covariance without widening, chi-square.
  test.each([
    [
      1,
      20,
      [0.0288482033560333, 0.0123757729643022],
      [0.000177013635925928, 9.10520879961247e-7],
      1.37121387698787,
    ],
    [
      2,
      20,
      [0.022190828714984, 0.0125863875056768, 4.14142311945528e-5],
      [0.000295485592384988, 1.02909400640048e-6, 4.58467730429776e-9],
      0.997111528753227,
    ],
  ] as const)('of degree %d is that of 40 digits', (degree, centre, coefficients, variances, chiSquare) => {
    const fit = fitPolynomial({ x: X, y: Y, uncertainties: U }, degree, centre);
    coefficients.forEach((value, at) => {
      expect(off(fit.coefficients[at], value)).toBeLessThan(CLOSE);
      expect(off(fit.covariance[at]?.[at], variances[at] ?? Number.NaN)).toBeLessThan(CLOSE);
    });
    expect(off(fit.birgeRatio, Math.sqrt(chiSquare / fit.degreesOfFreedom))).toBeLessThan(CLOSE);
  });

  test('is widened by the Birge ratio where the points scatter more than they should', () => {
    const fit = fitPolynomial({ x: X, y: Y, uncertainties: U }, 0);
    expect(off(fit.coefficients[0], -0.053059708599181)).toBeLessThan(CLOSE);
    expect(off(fit.birgeRatio, 5.82378494197512)).toBeLessThan(CLOSE);
    expect(off(fit.covariance[0]?.[0], 0.000137129797162175 * 5.82378494197512 ** 2)).toBeLessThan(CLOSE);
  });

  test('is not made surer where they scatter less', () => {
    const fit = fitPolynomial({ x: [0, 1, 2], y: [0, 0, 0], uncertainties: [0.3, 0.3, 0.3] }, 0);
    expect(fit.birgeRatio).toBe(0);
    expect(off(fit.covariance[0]?.[0], 0.03)).toBeLessThan(CLOSE);
  });

  test('through as many points as coefficients has the points’ own uncertainties', () => {
    const fit = fitPolynomial({ x: [0, 100], y: [0.2, -0.1], uncertainties: [0.05, 0.2] }, 1);
    expect(fit.degreesOfFreedom).toBe(0);
    expect(fit).not.toHaveProperty('birgeRatio');
    expect(fit).not.toHaveProperty('residualDeviation');
    expect(off(polynomialUncertaintyAt(fit, 0), 0.05)).toBeLessThan(CLOSE);
    expect(off(polynomialUncertaintyAt(fit, 100), 0.2)).toBeLessThan(CLOSE);
  });

  test('with equal uncertainties has the ordinary coefficients', () => {
    const ordinary = fitPolynomial({ x: X, y: Y }, 2, 7);
    const weighted = fitPolynomial({ x: X, y: Y, uncertainties: X.map(() => 0.4) }, 2, 7);
    ordinary.coefficients.forEach((value, at) => {
      expect(off(weighted.coefficients[at], value)).toBeLessThan(CLOSE);
    });
    expect(off(weighted.residualDeviation, ordinary.residualDeviation ?? Number.NaN)).toBeLessThan(CLOSE);
  });
});

const abscissas = fc.uniqueArray(fc.integer({ min: -400, max: 600 }), { minLength: 5, maxLength: 20 });
const degrees = fc.constantFrom<Degree>(0, 1, 2);

test('it finds the polynomial that the points lie on, from any centre', () => {
  fc.assert(
    fc.property(abscissas, degrees, fc.integer({ min: -100, max: 100 }), (tenths, degree, centre) => {
      const truth = { centre: 3, coefficients: [0.7, -0.02, 0.003].slice(0, degree + 1), covariance: [] };
      const x = tenths.map((value) => value / 10);
      const fit = fitPolynomial({ x, y: x.map((value) => polynomialAt(truth, value)) }, degree, centre);
      for (const value of x)
        expect(Math.abs(polynomialAt(fit, value) - polynomialAt(truth, value))).toBeLessThan(1e-10);
    }),
    { seed: 31, numRuns: 200 },
  );
});

test('the centre changes neither the values nor their uncertainties', () => {
  const [near, far] = [fitPolynomial({ x: X, y: Y }, 2, 20), fitPolynomial({ x: X, y: Y }, 2, -150)];
  for (const value of [-10, 0, 20, 60]) {
    expect(Math.abs(polynomialAt(near, value) - polynomialAt(far, value))).toBeLessThan(1e-11);
    // 150 away the terms of the variance are 10^5 times their sum.
    expect(off(polynomialUncertaintyAt(far, value), polynomialUncertaintyAt(near, value))).toBeLessThan(1e-8);
  }
});

test('residuals are at right angles to every column, and leverages add up to the coefficients', () => {
  fc.assert(
    fc.property(abscissas, degrees, (tenths, degree) => {
      const x = tenths.map((value) => value / 10);
      const fit = fitPolynomial({ x, y: x.map((value, at) => Math.sin(value) + at) }, degree);
      for (let power = 0; power <= degree; power += 1) {
        const along = fit.residuals.reduce((sum, value, at) => sum + value * (x[at] ?? 0) ** power, 0);
        expect(Math.abs(along)).toBeLessThan(1e-9 * 60 ** power * x.length);
      }
      const sum = fit.leverages.reduce((total, value) => total + value, 0);
      expect(Math.abs(sum - degree - 1)).toBeLessThan(1e-11);
    }),
    { seed: 32, numRuns: 200 },
  );
});

test('its uncertainty is that of the mean for a constant: s/sqrt(n)', () => {
  // 1, 2, 3, 4, 5: s is sqrt(2.5).
  const fit = fitPolynomial({ x: [7, 7, 7, 7, 7], y: [1, 2, 3, 4, 5] }, 0);
  expect(off(polynomialUncertaintyAt(fit, 7), Math.sqrt(0.5))).toBeLessThan(CLOSE);
});

describe('what is refused', () => {
  const BAD = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  test.each(BAD)('%d anywhere', (bad) => {
    expect(codeOf(() => fitPolynomial({ x: [1, bad, 3], y: [1, 2, 3] }, 1))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => fitPolynomial({ x: [1, 2, 3], y: [bad, 2, 3] }, 1))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => fitPolynomial({ x: [1, 2, 3], y: [1, 2, 3] }, 1, bad))).toBe('OUT_OF_DOMAIN');
    const observations = { x: [1, 2, 3], y: [1, 2, 3], uncertainties: [1, 1, bad] };
    expect(codeOf(() => fitPolynomial(observations, 1))).toBe('OUT_OF_DOMAIN');
  });

  test.each([0, -0.1])('an uncertainty of %d', (uncertainty) => {
    const observations = { x: [1, 2], y: [1, 2], uncertainties: [uncertainty, 1] };
    expect(codeOf(() => fitPolynomial(observations, 0))).toBe('OUT_OF_DOMAIN');
  });

  test('lists of different lengths', () => {
    expect(codeOf(() => fitPolynomial({ x: [1, 2, 3], y: [1, 2] }, 0))).toBe('OUT_OF_DOMAIN');
    expect(codeOf(() => fitPolynomial({ x: [1, 2], y: [1, 2], uncertainties: [1] }, 0))).toBe(
      'OUT_OF_DOMAIN',
    );
  });

  test.each([0, 1, 2] as const)('too few points for degree %d', (degree) => {
    const values = Array.from({ length: degree + 1 }, (_, at) => at);
    expect(codeOf(() => fitPolynomial({ x: [], y: [] }, degree))).toBe('TOO_FEW_SAMPLES');
    expect(codeOf(() => fitPolynomial({ x: values, y: values }, degree))).toBe('TOO_FEW_SAMPLES');
    const short = values.slice(1);
    const weighted = { x: short, y: short, uncertainties: short.map(() => 1) };
    expect(codeOf(() => fitPolynomial(weighted, degree))).toBe('TOO_FEW_SAMPLES');
  });

  test.each([
    [1, [20.1, 20.1, 20.1, 20.1]],
    [2, [20.1, 30.7, 30.7, 20.1, 30.7]],
  ] as const)('too few different abscissas for degree %d', (degree, x) => {
    expect(codeOf(() => fitPolynomial({ x, y: x.map((_, at) => at) }, degree))).toBe('TOO_FEW_SAMPLES');
  });

  test('a covariance with a variance below 0', () => {
    const broken = {
      centre: 0,
      coefficients: [0, 0],
      covariance: [
        [0.01, -0.5],
        [-0.5, 0.01],
      ],
    };
    expect(codeOf(() => polynomialUncertaintyAt(broken, 1))).toBe('OUT_OF_DOMAIN');
  });
});
