import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { erf, erfc, fourTimesTwiceIntegratedErfc } from '../../../services/core/physics/index.js';
import { refuses } from './refused.js';

const any = fc.double({ min: -30, max: 30, noNaN: true });
const positive = fc.double({ min: 0.01, max: 5, noNaN: true });

test('function and complement make one', () => {
  fc.assert(
    fc.property(any, (x) => {
      expect(Math.abs(erf(x) + erfc(x) - 1)).toBeLessThan(1e-15 * 4);
    }),
    { seed: 11, numRuns: 300 },
  );
});

test('it is odd, and its complement reflects', () => {
  fc.assert(
    fc.property(any, (x) => {
      expect(erf(-x) + erf(x)).toBe(0);
      expect(Math.abs(erfc(-x) + erfc(x) - 2)).toBeLessThan(1e-15 * 4);
    }),
    { seed: 12, numRuns: 300 },
  );
});

test('its slope is the bell', () => {
  const step = 1e-5;
  fc.assert(
    fc.property(positive, (x) => {
      const slope = (erf(x + step) - erf(x - step)) / (2 * step);
      const bell = (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x);
      expect(Math.abs(slope - bell)).toBeLessThan(1e-9);
    }),
    { seed: 13, numRuns: 200 },
  );
});

test('the twice integrated complement has the complement, times four, as its second derivative', () => {
  const step = 1e-3;
  fc.assert(
    fc.property(positive, (x) => {
      const at = fourTimesTwiceIntegratedErfc;
      const bend = (at(x + step) - 2 * at(x) + at(x - step)) / step ** 2;
      expect(Math.abs(bend - 4 * erfc(x))).toBeLessThan(1e-5);
    }),
    { seed: 14, numRuns: 200 },
  );
});

test.each([1.5 - 1e-9, 1.5, 1.5 + 1e-9])('series and fraction join without a step at %d', (x) => {
  // Values and slopes at 1.5 computed with mpmath, 40 digits; the slopes carry them over the 1e-9.
  const away = x - 1.5;
  expect(Math.abs(erfc(x) - (0.03389485352468927 - 0.1189302892236 * away))).toBeLessThan(4e-16);
  const joined = 0.008026260550346944 - 0.0344914572991 * away;
  expect(Math.abs(fourTimesTwiceIntegratedErfc(x) - joined)).toBeLessThan(2e-15);
});

test('it never rises, and dies out at large arguments instead of turning negative or NaN', () => {
  let last = Number.POSITIVE_INFINITY;
  for (const x of [-1e300, -30, -2, 0, 1.4999, 1.5, 3, 26, 27, 40, 1e10, Number.MAX_VALUE]) {
    expect(erfc(x)).toBeLessThanOrEqual(last);
    last = erfc(x);
  }
  expect(last).toBe(0);
  expect(fourTimesTwiceIntegratedErfc(Number.MAX_VALUE)).toBe(0);
});

describe('what is no number', () => {
  refuses('erf: argument', erf, []);
  refuses('erfc: argument', erfc, []);
  refuses('twice integrated: argument', fourTimesTwiceIntegratedErfc, [-1e-12]);
});
