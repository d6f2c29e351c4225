/** From waves at two depths to dry, damp or wet: the arithmetic against closed solutions and published sand. */
import { describe, expect, test } from 'vitest';
import { DAMPNESS } from '../../../../services/core/watch/dampness/parameters.js';
import { judgeSwing } from '../../../../services/core/watch/dampness/swing-reading.js';
import { NOTHING_BESIDE, wayBetween } from '../../../../services/core/watch/dampness/swing-way.js';

const PERIOD_s = 86_400;
const damping_m = (diffusivity_m2_s: number): number => Math.sqrt((diffusivity_m2_s * PERIOD_s) / Math.PI);

/** The wave in a deep solid, Carslaw & Jaeger: weaker and later alike. */
function waveAt(depth_m: number, diffusivity_m2_s: number, surface_C: number) {
  const way = depth_m / damping_m(diffusivity_m2_s);
  return {
    inPhase_C: surface_C * Math.exp(-way) * Math.cos(way),
    quadrature_C: surface_C * Math.exp(-way) * Math.sin(way),
    deviation_C: 0.01,
  };
}

const PLACE = { via: 'p1', depth_cm: 35, distance_m: 0.2 };

describe('the way of the wave', () => {
  // checks.md 6a, diffusivity 0.234375e-6: depth, amplitude, lag in hours [C].
  test.each([
    [0.05, 0.536453, 2.37883],
    [0.1, 0.287782, 4.75766],
    [0.2, 0.0828182, 9.51533],
    [0.3, 0.0238336, 14.273],
    [0.5, 0.0019739, 23.7883],
  ])('at %d m it is the published amplitude and lag', (depth_m, amplitude, lag_h) => {
    const lag = (2 * Math.PI * lag_h) / 24;
    const probe = {
      inPhase_C: 1000 * amplitude * Math.cos(lag),
      quadrature_C: 1000 * amplitude * Math.sin(lag),
      deviation_C: 1e-6,
    };
    const found = wayBetween({ inPhase_C: 1000, quadrature_C: 0, deviation_C: 1e-6 }, probe, NOTHING_BESIDE);
    expect(found?.share).toBeCloseTo(amplitude, 6);
    expect(found?.way).toBeCloseTo(depth_m / 0.0802856, 4);
  });

  test('what lies beside the sand is taken off', () => {
    const [surface, probe] = [waveAt(0, 0.2e-6, 5), waveAt(0.1, 0.2e-6, 5)];
    const bare = wayBetween(surface, probe, NOTHING_BESIDE);
    const covered = wayBetween(surface, probe, { attenuation: 0.4, lag: 0.2, deviation: 0.3 });
    expect(covered?.way).toBeCloseTo((bare?.way ?? Number.NaN) - 0.3, 9);
  });

  test('what is too small to measure is a bound: more share and less way than there is', () => {
    const found = wayBetween(waveAt(0, 0.2e-6, 5), waveAt(0.5, 0.2e-6, 5), NOTHING_BESIDE);
    expect(found?.atMost).toBe(true);
    expect(found?.way).toBeLessThan(0.5 / damping_m(0.2e-6));
  });

  test('a reference that hardly swings tells nothing', () => {
    const still = { inPhase_C: 0.02, quadrature_C: 0, deviation_C: 0.01 };
    expect(wayBetween(still, waveAt(0.1, 0.2e-6, 5), NOTHING_BESIDE)).toBeUndefined();
  });
});

describe('dry, damp or wet', () => {
  const judged = (diffusivity_m2_s: number, learned?: { way: number; share: number }) => {
    const way = wayBetween(
      waveAt(0.15, diffusivity_m2_s, 5),
      waveAt(0.35, diffusivity_m2_s, 5),
      NOTHING_BESIDE,
    );
    return way && judgeSwing(way, PLACE, learned, 0.15);
  };
  const dryWay = { way: 0.2 / damping_m(0.19e-6), share: 0.06 };

  // Table after de Vries 1963 and Smits et al. 2010 [V]: loose sand dry, with 0.20 of water, saturated; tight, moist.
  test.each([
    [0.19e-6, 'dry'],
    [0.99e-6, 'wet'],
    [0.85e-6, 'wet'],
    [1.2e-6, 'wet'],
  ])('%d m2/s is %s', (diffusivity_m2_s, name) => {
    const reading = judged(diffusivity_m2_s)?.reading;
    expect(reading?.class).toBe(name);
    expect((reading?.diffusivity_m2_s ?? Number.NaN) / diffusivity_m2_s).toBeCloseTo(1, 2);
  });

  test('against its own dry weeks the change is what counts, and asks for a look', () => {
    const moist = judged(0.5e-6, dryWay);
    expect(moist?.asks).toBe(true);
    expect(moist?.reading.dampProbability).toBeGreaterThan(0.9);
    expect(judged(0.19e-6, dryWay)?.asks).toBe(false);
    // A quarter more conducts better by less than what is damp.
    expect(judged(0.24e-6, dryWay)?.asks).toBe(false);
  });

  test('a bed that always looked so does not ask: its walls let the day in', () => {
    const wide = { way: 0.2 / damping_m(0.6e-6), share: 0.3 };
    expect(judged(0.6e-6, wide)?.asks).toBe(false);
  });

  test('where nothing is learned yet it takes much of the outdoor swing, deep down', () => {
    const way = wayBetween(waveAt(0, 0.85e-6, 5), waveAt(0.25, 0.85e-6, 5), DAMPNESS.beside['stepped-pit']);
    const deep = { via: 'shade', depth_cm: 25, distance_m: 0.25 };
    expect(way && judgeSwing(way, deep, undefined, 0.15)?.asks).toBe(true);
    expect(way && judgeSwing(way, { ...deep, depth_cm: 15, distance_m: 0.15 }, undefined, 0.15)?.asks).toBe(
      false,
    );
    expect(way && judgeSwing(way, deep, undefined, 0.5)?.asks).toBe(false);
  });

  test('a probe that swings like the air lies bare, and is not read', () => {
    const [air, bare] = [waveAt(0, 0.2e-6, 5), waveAt(0.03, 0.2e-6, 5)];
    const way = wayBetween(air, bare, NOTHING_BESIDE);
    expect(
      way && judgeSwing(way, { via: 'shade', depth_cm: 30, distance_m: 0.3 }, undefined, 0.15),
    ).toBeUndefined();
  });

  test('a bound never asks, and says dry only where it is', () => {
    const way = wayBetween(waveAt(0, 0.19e-6, 5), waveAt(0.6, 0.19e-6, 5), NOTHING_BESIDE);
    const far =
      way && judgeSwing(way, { via: 'p1', depth_cm: 60, distance_m: 0.6 }, { way: 12, share: 0.001 }, 0.15);
    expect(far?.asks).toBe(false);
    const near = way && judgeSwing(way, { via: 'p1', depth_cm: 75, distance_m: 0.75 }, undefined, 0.15);
    expect(near?.reading.atMost).toBe(true);
    expect(near?.reading.class).toBe('unknown');
  });
});
