import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DAY_s, stepArrivedShare, temperatureAfterStep_C } from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const KAPPA = 0.2e-6;

test('a step obeys the law of conduction', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.6, noNaN: true }),
      fc.integer({ min: DAY_s, max: 20 * DAY_s }),
      (depth, time) => {
        const at = (z: number, t: number): number => stepArrivedShare(z, KAPPA, t);
        const inTime = (at(depth, time + 60) - at(depth, time - 60)) / 120;
        const inSpace = (at(depth + 1e-3, time) - 2 * at(depth, time) + at(depth - 1e-3, time)) / 1e-6;
        expect(Math.abs(inTime - KAPPA * inSpace)).toBeLessThan(1e-4 / DAY_s);
      },
    ),
    { seed: 31, numRuns: 200 },
  );
});

test('twice as deep takes four times as long', () => {
  expect(stepArrivedShare(0.4, KAPPA, 4 * DAY_s)).toBeCloseTo(stepArrivedShare(0.2, KAPPA, DAY_s), 14);
});

test('nothing has arrived before the step, all at the surface after it', () => {
  expect(stepArrivedShare(0.2, KAPPA, 0)).toBe(0);
  expect(stepArrivedShare(0.2, KAPPA, -DAY_s)).toBe(0);
  expect(stepArrivedShare(0, KAPPA, 1)).toBe(1);
});

test('temperature goes from before to the surface’s', () => {
  expect(temperatureAfterStep_C(20, -15, 0)).toBe(20);
  expect(temperatureAfterStep_C(20, -15, 1)).toBe(-15);
  expect(temperatureAfterStep_C(20, 30, 0.25)).toBe(22.5);
});

describe('outside the domain', () => {
  refuses('depth', (depth) => stepArrivedShare(depth, KAPPA, DAY_s), [-0.01, 1001]);
  refuses('diffusivity', (kappa) => stepArrivedShare(0.2, kappa, DAY_s), [0, -KAPPA, 1]);
  refuses('elapsed time', (elapsed) => stepArrivedShare(0.2, KAPPA, elapsed), [1.1e10, -1.1e10]);
  refuses('share', (share) => temperatureAfterStep_C(20, 30, share), [-0.01, 1.01]);
  refuses('temperature before', (t) => temperatureAfterStep_C(t, 30, 0.5), [-300]);
  refuses('surface temperature', (t) => temperatureAfterStep_C(20, t, 0.5), [-300]);
  takes('depth', (depth) => stepArrivedShare(depth, KAPPA, 1), [0, 1000]);
});
