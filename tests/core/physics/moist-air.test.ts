import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dewPoint_C,
  relativeHumidityAt,
  saturationVapourPressure_Pa,
  vapourDensity_g_m3,
  vapourPressure_Pa,
  vapourPressureDeficit_Pa,
} from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

const temperature_C = fc.double({ min: -20, max: 60, noNaN: true });
const humidity = fc.double({ min: 0.1, max: 1, noNaN: true });

describe('what belongs together', () => {
  test('at its dew point air is saturated with what it held', () => {
    fc.assert(
      fc.property(temperature_C, humidity, (t, rh) => {
        const held_Pa = vapourPressure_Pa(t, rh);
        const atDewPoint_Pa = saturationVapourPressure_Pa(Math.min(60, dewPoint_C(t, rh)));
        expect(Math.abs(atDewPoint_Pa / held_Pa - 1)).toBeLessThan(1e-12);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  test('humidity at the air’s own temperature comes back from its dew point', () => {
    fc.assert(
      fc.property(temperature_C, humidity, (t, rh) => {
        expect(Math.abs(relativeHumidityAt(t, Math.min(60, dewPoint_C(t, rh))) - rh)).toBeLessThan(1e-12);
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  test('deficit and vapour make up saturation', () => {
    fc.assert(
      fc.property(temperature_C, humidity, (t, rh) => {
        const sum_Pa = vapourPressureDeficit_Pa(t, rh) + vapourPressure_Pa(t, rh);
        expect(Math.abs(sum_Pa / saturationVapourPressure_Pa(t) - 1)).toBeLessThan(1e-12);
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  test('warmer air of the same humidity holds more', () => {
    fc.assert(
      fc.property(temperature_C, humidity, (t, rh) => {
        fc.pre(t < 59);
        expect(vapourDensity_g_m3(t + 1, rh)).toBeGreaterThan(vapourDensity_g_m3(t, rh));
      }),
      { seed: 6, numRuns: 100 },
    );
  });
});

test('air of 30 °C and 80 %RH condenses in sand of 25 °C, and that is not cut off at 1', () => {
  expect(relativeHumidityAt(25, dewPoint_C(30, 0.8))).toBeGreaterThan(1.05);
});

test('saturated air has no deficit, dry air no vapour', () => {
  expect(vapourPressureDeficit_Pa(25, 1)).toBe(0);
  expect(vapourDensity_g_m3(25, 0)).toBe(0);
  expect(dewPoint_C(25, 1)).toBeCloseTo(25, 12);
});

describe('temperature', () => {
  const beyond = [-45.001, 60.001];
  refuses('saturation: temperature', saturationVapourPressure_Pa, beyond);
  refuses('vapour pressure: temperature', (t) => vapourPressure_Pa(t, 0.5), beyond);
  refuses('dew point: temperature', (t) => dewPoint_C(t, 0.9), beyond);
  refuses('vapour density: temperature', (t) => vapourDensity_g_m3(t, 0.5), beyond);
  refuses('deficit: temperature', (t) => vapourPressureDeficit_Pa(t, 0.5), beyond);
  refuses('humidity at: temperature', (t) => relativeHumidityAt(t, 10), beyond);
  refuses('humidity at: dew point', (t) => relativeHumidityAt(10, t), beyond);
  takes('saturation: temperature', saturationVapourPressure_Pa, [-45, 0, 60]);
  takes('dew point of saturated air: temperature', (t) => dewPoint_C(t, 1), [-45, 0, 60]);
});

describe('relative humidity is a fraction: %RH is refused', () => {
  const beyond = [-0.001, 1.001, 85];
  refuses('vapour pressure: humidity', (rh) => vapourPressure_Pa(20, rh), beyond);
  refuses('dew point: humidity', (rh) => dewPoint_C(20, rh), [...beyond, 0, 0.0009]);
  refuses('vapour density: humidity', (rh) => vapourDensity_g_m3(20, rh), beyond);
  refuses('deficit: humidity', (rh) => vapourPressureDeficit_Pa(20, rh), beyond);
  takes('dew point: humidity', (rh) => dewPoint_C(60, rh), [0.001, 1]);
});

refuses('humidity whose dew point lies below -45 °C', (rh) => dewPoint_C(-40, rh), [0.1]);
