/** Water that sand holds: its potential, the air beside it, and its suction. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  effectiveSaturation,
  poreAirHumidity,
  RETENTION_CURVES,
  relativeConductivity,
  suctionAt_cm,
  WILTING_POINT_Pa,
  waterContentAt,
  waterDensity_kg_m3,
  waterPotential_Pa,
} from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const { sand } = RETENTION_CURVES;

describe('humidity of the air between the grains', () => {
  test('potential and humidity are each other’s inverse', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (humidity, t) => {
          expect(Math.abs(poreAirHumidity(waterPotential_Pa(humidity, t), t) / humidity - 1)).toBeLessThan(
            1e-12,
          );
        },
      ),
      { seed: 71, numRuns: 200 },
    );
  });

  test('free water is saturated air, and no negative zero', () => {
    expect(poreAirHumidity(0, 20)).toBe(1);
    expect(Object.is(waterPotential_Pa(1, 20), 0)).toBe(true);
  });

  test('no plant draws water from sand whose air is not above 98.8 %RH', () => {
    for (const t of [5, 15, 25, 35]) expect(poreAirHumidity(WILTING_POINT_Pa, t)).toBeGreaterThan(0.988);
  });

  takes('potential', (potential) => poreAirHumidity(potential, 20), [-1e9, 0]);
  takes('humidity', (humidity) => waterPotential_Pa(humidity, 20), [0.001, 1]);
  refuses('potential', (potential) => poreAirHumidity(potential, 20), [1, -1.001e9]);
  refuses('temperature', (t) => poreAirHumidity(-1e6, t), [-0.1, 60.1]);
  refuses('humidity', (humidity) => waterPotential_Pa(humidity, 20), [0, 0.0009, 1.001, 95]);
  refuses('inverse: temperature', (t) => waterPotential_Pa(0.9, t), [-0.1, 60.1]);
  refuses('density: temperature', waterDensity_kg_m3, [-0.1, 60.1]);
  takes('density: temperature', waterDensity_kg_m3, [0, 60]);
});

describe('suction', () => {
  test.each(Object.entries(RETENTION_CURVES))(
    'of %s comes back from the water that it leaves',
    (_, curve) => {
      fc.assert(
        fc.property(fc.double({ min: 1, max: 5000, noNaN: true }), (suction_cm) => {
          const back_cm = suctionAt_cm(curve, waterContentAt(curve, suction_cm));
          expect(Math.abs(back_cm / suction_cm - 1)).toBeLessThan(1e-6);
        }),
        { seed: 72, numRuns: 100 },
      );
    },
  );

  test.each(Object.entries(RETENTION_CURVES))('%s drains from saturated towards residual', (_, curve) => {
    let last = 1;
    for (const suction_cm of [1, 10, 100, 1000, 15_000]) {
      const content = waterContentAt(curve, suction_cm);
      expect(content).toBeLessThan(last);
      expect(content).toBeGreaterThan(curve.residual);
      last = content;
    }
    expect(waterContentAt(curve, 0)).toBe(curve.saturated);
    expect(suctionAt_cm(curve, curve.saturated)).toBe(0);
  });

  test('saturated sand lets through all, drained sand next to nothing', () => {
    expect(relativeConductivity(sand, 1)).toBe(1);
    expect(relativeConductivity(sand, 0)).toBe(0);
    expect(relativeConductivity(sand, effectiveSaturation(sand, 100))).toBeLessThan(1e-7);
  });

  refuses('suction', (suction) => effectiveSaturation(sand, suction), [-1, 15_001]);
  refuses('content: suction', (suction) => waterContentAt(sand, suction), [-1, 15_001]);
  refuses('water content', (content) => suctionAt_cm(sand, content), [0.04, 0.045, 0.4301, 43]);
  refuses('saturation', (saturation) => relativeConductivity(sand, saturation), [-0.01, 1.01]);
  takes('suction', (suction) => waterContentAt(sand, suction), [0, 15_000]);
});
