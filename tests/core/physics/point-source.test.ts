import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DAY_s,
  growingSourceRise_C,
  type Medium,
  type SourceHistory,
  sourceRise_C,
  steadySourceRise_C,
} from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const SAND: Medium = { conductivity_W_mK: 0.25, diffusivity_m2_s: 0.2e-6 };
const distance_m = fc.double({ min: 0.03, max: 0.6, noNaN: true });
const elapsed_s = fc.integer({ min: DAY_s / 4, max: 40 * DAY_s });

test('the rise obeys the law of conduction around the source', () => {
  const laws = [
    (r: number, t: number): number => r * steadySourceRise_C(1, SAND, r, t),
    (r: number, t: number): number => r * growingSourceRise_C(1 / DAY_s, SAND, r, t),
  ];
  fc.assert(
    fc.property(distance_m, elapsed_s, (r, t) => {
      for (const law of laws) {
        const inTime = (law(r, t + 60) - law(r, t - 60)) / 120;
        const inSpace = (law(r + 1e-3, t) - 2 * law(r, t) + law(r - 1e-3, t)) / 1e-6;
        expect(Math.abs(inTime - SAND.diffusivity_m2_s * inSpace)).toBeLessThan(3e-3 / DAY_s);
      }
    }),
    { seed: 41, numRuns: 100 },
  );
});

test('a growing source is steady ones begun one after another', () => {
  // Midpoint sum of 4,000 steps of power; its error is some 1e-7 of the rise.
  const steps = 4000;
  const sumOfSteady_C = (r: number, t: number): number => {
    let sum = 0;
    for (let step = 0; step < steps; step += 1)
      sum += steadySourceRise_C(t / DAY_s / steps, SAND, r, t * (1 - (step + 0.5) / steps));
    return sum;
  };
  fc.assert(
    fc.property(distance_m, elapsed_s, (r, t) => {
      const rise_C = growingSourceRise_C(1 / DAY_s, SAND, r, t);
      expect(Math.abs(rise_C - sumOfSteady_C(r, t))).toBeLessThan(1e-6 * (rise_C + 1e-3));
    }),
    { seed: 42, numRuns: 30 },
  );
});

test('heat that was released is in the medium', () => {
  const elapsed = 3 * DAY_s;
  const width_m = 1e-3;
  let heat_J = 0;
  for (let r = width_m / 2 + 1e-3; r < 2; r += width_m)
    heat_J += 4 * Math.PI * r * r * width_m * steadySourceRise_C(2, SAND, r, elapsed);
  heat_J *= SAND.conductivity_W_mK / SAND.diffusivity_m2_s;
  expect(Math.abs(heat_J / (2 * elapsed) - 1)).toBeLessThan(1e-4);
});

describe('a source that begins, grows and stays', () => {
  const ROT: SourceHistory = { power_W: 2, start_s: 30 * DAY_s, growth_s: 4 * DAY_s };

  test('is nothing before it begins', () => {
    for (const time_s of [0, 30 * DAY_s]) expect(sourceRise_C(ROT, SAND, 0.2, time_s)).toBe(0);
  });

  test('is a growing one while it grows, on whatever clock', () => {
    const grown_C = growingSourceRise_C(2 / (4 * DAY_s), SAND, 0.2, 3 * DAY_s);
    expect(sourceRise_C(ROT, SAND, 0.2, 33 * DAY_s)).toBe(grown_C);
    const epoch_s = 1.78e9;
    const later = { ...ROT, start_s: ROT.start_s + epoch_s };
    expect(sourceRise_C(later, SAND, 0.2, 33 * DAY_s + epoch_s)).toBe(grown_C);
  });

  test('comes to the steady rise in the end', () => {
    const last_C = sourceRise_C(ROT, SAND, 0.2, 8e9);
    expect(Math.abs(last_C / (2 / (4 * Math.PI * 0.25 * 0.2)) - 1)).toBeLessThan(3e-3);
  });

  test('without growth is at full power at once, and very fast growth comes near it', () => {
    const at_C = (growth_s: number): number => sourceRise_C({ ...ROT, growth_s }, SAND, 0.2, 40 * DAY_s);
    expect(at_C(0)).toBe(steadySourceRise_C(2, SAND, 0.2, 10 * DAY_s));
    expect(Math.abs(at_C(1) / at_C(0) - 1)).toBeLessThan(1e-5);
  });

  test('a sink cools as a source warms', () => {
    const sink = { ...ROT, power_W: -2 };
    expect(sourceRise_C(sink, SAND, 0.2, 40 * DAY_s)).toBe(-sourceRise_C(ROT, SAND, 0.2, 40 * DAY_s));
  });

  refuses('power', (power_W) => sourceRise_C({ ...ROT, power_W }, SAND, 0.2, DAY_s), [1e7]);
  refuses('start', (start_s) => sourceRise_C({ ...ROT, start_s }, SAND, 0.2, DAY_s), [2e10]);
  refuses('growth', (growth_s) => sourceRise_C({ ...ROT, growth_s }, SAND, 0.2, DAY_s), [-1, 1e-6, 2e10]);
  refuses('time', (time_s) => sourceRise_C(ROT, SAND, 0.2, time_s), [2e10]);
  refuses('distance', (distance) => sourceRise_C(ROT, SAND, distance, 40 * DAY_s), [0, -0.1]);
});

describe('outside the domain', () => {
  refuses('distance', (r) => steadySourceRise_C(1, SAND, r, DAY_s), [0, 0.0009, -0.1, 1001]);
  refuses('distance, before it begins too', (r) => steadySourceRise_C(1, SAND, r, -DAY_s), [0]);
  refuses('elapsed', (elapsed) => steadySourceRise_C(1, SAND, 0.1, elapsed), [1.1e10]);
  refuses('power', (power) => steadySourceRise_C(power, SAND, 0.1, DAY_s), [1.1e6, -1.1e6]);
  refuses('growth', (growth) => growingSourceRise_C(growth, SAND, 0.1, DAY_s), [1.1e6]);
  refuses('growing: distance', (r) => growingSourceRise_C(1, SAND, r, DAY_s), [0]);
  refuses('growing: elapsed', (elapsed) => growingSourceRise_C(1, SAND, 0.1, elapsed), [1.1e10]);
  refuses(
    'conductivity',
    (conductivity_W_mK) => steadySourceRise_C(1, { ...SAND, conductivity_W_mK }, 0.1, DAY_s),
    [0, -0.25],
  );
  refuses(
    'diffusivity',
    (diffusivity_m2_s) => steadySourceRise_C(1, { ...SAND, diffusivity_m2_s }, 0.1, DAY_s),
    [0, -2e-7],
  );
  takes('distance', (r) => steadySourceRise_C(1, SAND, r, DAY_s), [0.001, 1000]);
});
