import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type HumidityInBath,
  temperatureEffect,
} from '../../../services/core/calibration/humidity-in-use.js';
import { codeOf, refuses, takes } from '../physics/refused.js';
import { seededNormal } from '../watch/sequential/seeded-normal.js';

const point = (reference: number, temperature_C: number | undefined, error = 0): HumidityInBath =>
  Object.freeze({
    indicated: reference + error,
    reference,
    referenceUncertainty: 0.2,
    ...(temperature_C !== undefined && { temperature_C }),
  });

describe('one temperature', () => {
  const ROOM = Object.freeze([point(33, 25, 1), point(75, 25, 2), point(97, 25, 3)]);

  test('25 °C, used at 18 °C: nothing is added, 0.35 %RH is uncertain', () => {
    const effect = temperatureEffect(ROOM, 18);
    expect(effect).toMatchObject({ correction_RH: 0, basis: 'assumed' });
    expect(effect.standardUncertainty_RH).toBeCloseTo(0.35, 12);
    expect(effect.coefficient_RH_C).toBeUndefined();
    expect(effect.sentence).toContain('7.0 °C away from the 18.0 °C of use');
  });

  test('it grows with the distance on both sides and is nothing at it', () => {
    expect(temperatureEffect(ROOM, 25).standardUncertainty_RH).toBe(0);
    expect(temperatureEffect(ROOM, 35).standardUncertainty_RH).toBeCloseTo(0.5, 12);
    expect(temperatureEffect(ROOM, 10).standardUncertainty_RH).toBeCloseTo(0.75, 12);
  });

  test('temperatures less than 5 °C apart tell nothing, and the farther one counts', () => {
    const effect = temperatureEffect([point(75, 20, 0), point(75, 24.9, 2)], 18);
    expect(effect.basis).toBe('assumed');
    expect(effect.standardUncertainty_RH).toBeCloseTo(0.345, 12);
  });

  test('points without a temperature count as anywhere from 15 to 30 °C, and it is said', () => {
    const effect = temperatureEffect([point(33, undefined), point(75, 20)], 18);
    expect(effect.standardUncertainty_RH).toBeCloseTo(0.6, 12);
    expect(effect.sentence).toContain('not written down');
    expect(temperatureEffect([point(33, 10), point(75, 20)], 18).sentence).not.toContain('not written');
  });
});

describe('two temperatures', () => {
  test('one salt at 15 and 30 °C gives the coefficient by hand', () => {
    // Errors 0 and 3 %RH, 15 °C apart: 0.2 %RH/°C about 22.5 °C; at 18 °C the reading is 0.9 %RH too low.
    const effect = temperatureEffect([point(75.6, 15, 0), point(75.1, 30, 3)], 18);
    expect(effect.basis).toBe('measured');
    expect(effect.coefficient_RH_C).toBeCloseTo(0.2, 12);
    expect(effect.correction_RH).toBeCloseTo(0.9, 12);
    // Each point 0.36 %RH (0.2 of the reference, 0.3 of the probe): sqrt(2) * 0.36 / 15 °C, over 4.5 °C.
    const ofSlope = (Math.SQRT2 * Math.hypot(0.2, 0.3)) / 15;
    expect(effect.standardUncertainty_RH).toBeCloseTo(ofSlope * 4.5, 12);
    expect(effect.sentence).toContain('0.200 %RH higher for each °C warmer');
  });

  test('beyond the temperatures of the points the assumed coefficient comes on top', () => {
    const points = [point(75.6, 15, 0), point(75.1, 30, 3)];
    const ofSlope = (Math.SQRT2 * Math.hypot(0.2, 0.3)) / 15;
    expect(temperatureEffect(points, 10).standardUncertainty_RH).toBeCloseTo(
      Math.hypot(ofSlope * 12.5, 0.05 * 5),
      12,
    );
  });

  test('an error that goes with humidity is not taken for one of temperature', () => {
    const errorAt = (humidity: number): number => 0.1 * (humidity - 50);
    const points = [33, 75, 97].flatMap((humidity) => [
      point(humidity + 0.3, 15, errorAt(humidity + 0.3)),
      point(humidity, 28, errorAt(humidity)),
    ]);
    const effect = temperatureEffect(points, 18);
    expect(effect.basis).toBe('measured');
    expect(effect.coefficient_RH_C).toBeCloseTo(0, 10);
  });

  test('dry points in the cold and damp ones in the warm cannot be told apart: assumed', () => {
    expect(temperatureEffect([point(33, 15, 0), point(33, 15, 0.1), point(75, 30, 3)], 18)).toMatchObject({
      basis: 'assumed',
      correction_RH: 0,
    });
  });

  test('a bend of the probe’s scale is not taken for warmth where the two went almost together', () => {
    // Without that rule this would be -17 %RH, "measured".
    expect(temperatureEffect([point(33, 15, 0), point(75, 25, 4), point(97, 32, 1)], 18)).toMatchObject({
      basis: 'assumed',
      correction_RH: 0,
    });
  });

  test('a slope worse known than the assumption and not clear of 0 is not used', () => {
    const effect = temperatureEffect([point(75, 20, 0), point(75, 26, 0.4)], 18);
    expect(effect.basis).toBe('assumed');
    // Clear of 0 it is, badly known as it may be.
    expect(temperatureEffect([point(75, 20, 0), point(75, 26, 2)], 18).basis).toBe('measured');
  });

  test('points that contradict each other make it less certain, never more', () => {
    const quiet = [point(75, 15, 0), point(75, 15, 0), point(75, 30, 0.1), point(75, 30, 0.1)];
    const loud = [point(75, 15, -1), point(75, 15, 1), point(75, 30, -0.9), point(75, 30, 1.1)];
    const [calm, wild] = [quiet, loud].map((points) => temperatureEffect(points, 16));
    expect(calm?.standardUncertainty_RH).toBeCloseTo((Math.hypot(0.2, 0.3) / 15) * 6.5, 12);
    expect(wild?.basis).toBe('assumed');
  });

  test('the stated uncertainty covers a known coefficient: 68 % of a thousand calibrations, ± 4', () => {
    const normal = seededNormal(11);
    let covered = 0;
    for (let run = 0; run < 1000; run += 1) {
      const points = [33, 75, 33, 75, 33, 75].map((humidity, at) => {
        const t = at < 3 ? 15 : 30;
        const truth = humidity + Math.hypot(0.2, 0.3) * normal();
        return point(humidity, t, truth - humidity + 0.15 * (t - 22.5) + 0.02 * (humidity - 54));
      });
      const effect = temperatureEffect(points, 18);
      expect(effect.basis).toBe('measured');
      if (Math.abs(effect.correction_RH - 0.15 * 4.5) <= effect.standardUncertainty_RH) covered += 1;
    }
    // The uncertainty grows with large residuals and never shrinks, so that it lies a little on the safe side.
    expect(covered).toBeGreaterThan(660);
    expect(covered).toBeLessThan(800);
  });
});

test('the order of the points does not matter', () => {
  const points = [point(33, 15, 1), point(75, 30, 2), point(33, 29, 0), point(75, 16, 1)];
  fc.assert(
    fc.property(fc.shuffledSubarray(points, { minLength: 4 }), (shuffled) => {
      const [one, other] = [points, shuffled].map((those) => temperatureEffect(those, 18));
      expect(one?.correction_RH).toBeCloseTo(other?.correction_RH ?? Number.NaN, 10);
    }),
    { seed: 12, numRuns: 30 },
  );
});

describe('misuse', () => {
  const one = (changes: Partial<HumidityInBath>) => temperatureEffect([{ ...point(75, 20), ...changes }], 18);
  refuses('temperature of use', (t) => temperatureEffect([point(75, 20)], t), [-0.1, 50.1, 291]);
  refuses('bath', (temperature_C) => one({ temperature_C }), [-0.1, 50.1]);
  refuses('indicated', (indicated) => one({ indicated }), [-10.1, 120.1]);
  refuses('reference', (reference) => one({ reference }), [-0.1, 100.1]);
  refuses('uncertainty', (referenceUncertainty) => one({ referenceUncertainty }), [-0.1, 20.1]);
  takes('temperature of use', (t) => temperatureEffect([point(75, 20)], t).standardUncertainty_RH, [0, 50]);

  test('no point, and too many', () => {
    expect(codeOf(() => temperatureEffect([], 18))).toBe('TOO_FEW_SAMPLES');
    expect(codeOf(() => temperatureEffect(Array(201).fill(point(75, 20)), 18))).toBe('LIMIT_EXCEEDED');
  });
});
