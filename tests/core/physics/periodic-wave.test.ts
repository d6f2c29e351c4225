import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DAY_s,
  dampingDepth_m,
  diffusivityFromAmplitude_m2_s,
  diffusivityFromLag_m2_s,
  waveAmplitudeShare,
  waveLag_s,
} from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const diffusivity = fc.double({ min: 1e-7, max: 2e-6, noNaN: true });
const depth_m = fc.double({ min: 0.02, max: 1, noNaN: true });

test('the diffusivity comes back from the swing that is left and from its lag', () => {
  fc.assert(
    fc.property(diffusivity, depth_m, (kappa, depth) => {
      const damping = dampingDepth_m(kappa, DAY_s);
      const fromSwing = diffusivityFromAmplitude_m2_s(depth, waveAmplitudeShare(depth, damping), DAY_s);
      const fromLag = diffusivityFromLag_m2_s(depth, waveLag_s(depth, damping, DAY_s), DAY_s);
      expect(Math.abs(fromSwing / kappa - 1)).toBeLessThan(1e-12);
      expect(Math.abs(fromLag / kappa - 1)).toBeLessThan(1e-12);
    }),
    { seed: 21, numRuns: 200 },
  );
});

test('the wave obeys the law of conduction', () => {
  const kappa = 0.3e-6;
  const damping = dampingDepth_m(kappa, DAY_s);
  const at = (depth: number, time: number): number =>
    waveAmplitudeShare(depth, damping) *
    Math.sin((2 * Math.PI * (time - waveLag_s(depth, damping, DAY_s))) / DAY_s);
  fc.assert(
    fc.property(depth_m, fc.integer({ min: 0, max: DAY_s }), (depth, time) => {
      const inTime = (at(depth, time + 5) - at(depth, time - 5)) / 10;
      const inSpace = (at(depth + 1e-4, time) - 2 * at(depth, time) + at(depth - 1e-4, time)) / 1e-8;
      expect(Math.abs(inTime - kappa * inSpace)).toBeLessThan(1e-4 * ((2 * Math.PI) / DAY_s));
    }),
    { seed: 22, numRuns: 200 },
  );
});

test('the surface swings fully and at once', () => {
  expect(waveAmplitudeShare(0, 0.08)).toBe(1);
  expect(waveLag_s(0, 0.08, DAY_s)).toBe(0);
});

describe('outside the domain', () => {
  refuses('diffusivity', (kappa) => dampingDepth_m(kappa, DAY_s), [0, -2e-7, 0.2]);
  refuses('period', (period) => dampingDepth_m(2e-7, period), [0, -DAY_s, 59]);
  refuses('depth', (depth) => waveAmplitudeShare(depth, 0.08), [-0.01, 1001]);
  refuses('damping depth', (damping) => waveAmplitudeShare(0.2, damping), [0, -0.08]);
  refuses('lag: depth', (depth) => waveLag_s(depth, 0.08, DAY_s), [-0.01]);
  refuses('lag: damping depth', (damping) => waveLag_s(0.2, damping, DAY_s), [0]);
  refuses('lag: period', (period) => waveLag_s(0.2, 0.08, period), [0]);
  refuses('share', (share) => diffusivityFromAmplitude_m2_s(0.2, share, DAY_s), [0, 1, 1.2, -0.5]);
  refuses('distance', (distance) => diffusivityFromAmplitude_m2_s(distance, 0.5, DAY_s), [0, -0.1]);
  refuses('swing: period', (period) => diffusivityFromAmplitude_m2_s(0.2, 0.5, period), [0, 59]);
  refuses('lag', (lag) => diffusivityFromLag_m2_s(0.2, lag, DAY_s), [0, -3600]);
  refuses('lag: distance', (distance) => diffusivityFromLag_m2_s(distance, 3600, DAY_s), [0, -0.1]);
  refuses('share of no solid', (share) => diffusivityFromAmplitude_m2_s(1, share, DAY_s), [0.9999]);
  takes('depth', (depth) => waveAmplitudeShare(depth, 0.08), [0, 1000]);
});
