import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { studentScore, studentTail } from '../../../services/core/calibration/index.js';
import { refuses } from '../physics/refused.js';

const degrees = fc.integer({ min: 1, max: 2000 });

test('tail and score undo each other', () => {
  fc.assert(
    fc.property(degrees, fc.double({ min: 1e-8, max: 0.49, noNaN: true }), (degreesOfFreedom, tail) => {
      expect(
        Math.abs(studentTail(studentScore(tail, degreesOfFreedom), degreesOfFreedom) / tail - 1),
      ).toBeLessThan(1e-9);
    }),
    { seed: 41, numRuns: 200 },
  );
});

test('fewer degrees of freedom ask for more', () => {
  fc.assert(
    fc.property(degrees, fc.double({ min: 1e-6, max: 0.4, noNaN: true }), (degreesOfFreedom, tail) => {
      expect(studentScore(tail, degreesOfFreedom)).toBeGreaterThan(studentScore(tail, degreesOfFreedom + 1));
      expect(studentScore(tail, degreesOfFreedom)).toBeGreaterThan(studentScore(tail));
    }),
    { seed: 42, numRuns: 100 },
  );
});

test('with one degree of freedom it is Cauchy’s: half less the arc tangent over pi', () => {
  for (const t of [0, 0.001, 0.5, 1, 1.7, 3, 40])
    expect(Math.abs(studentTail(t, 1) - (0.5 - Math.atan(t) / Math.PI))).toBeLessThan(1e-15 * 4);
});

describe('what is refused', () => {
  refuses('tail', (tail) => studentScore(tail, 5), [0, -0.1, 0.51, 1]);
  refuses('tail of the normal', (tail) => studentScore(tail), [0, 0.51]);
  refuses(
    'degrees of freedom',
    (degreesOfFreedom) => studentScore(0.025, degreesOfFreedom),
    [0, 0.9, -3, 100_001],
  );
  refuses('t', (t) => studentTail(t, 5), [-1]);
});
