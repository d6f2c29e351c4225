import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  boilingPoint,
  boilingTemperature_C,
  ICE_POINT,
  pressureFromAltitude,
  saturationPressure_Pa,
  saturationPressureSlope_Pa_C,
} from '../../../services/core/calibration/fixed-points.js';
import { refuses, takes } from '../physics/refused.js';

test('ice is 0 °C with an uncertainty of its own', () => {
  expect(ICE_POINT).toMatchObject({ temperature_C: 0, standardUncertainty_C: 0.05 });
});

test('coefficients are as printed', () => {
  // The six terms at 60 and 100 °C [computed with mpmath to 30 digits].
  expect(Math.abs(saturationPressure_Pa(60) / 19947.3825215986 - 1)).toBeLessThan(1e-12);
  expect(Math.abs(saturationPressure_Pa(100) / 101417.993817928 - 1)).toBeLessThan(1e-12);
});

test('the slope is the central difference', () => {
  const STEP_C = 0.001;
  fc.assert(
    fc.property(fc.double({ min: 60.01, max: 104.99, noNaN: true }), (t) => {
      const central = (saturationPressure_Pa(t + STEP_C) - saturationPressure_Pa(t - STEP_C)) / (2 * STEP_C);
      // Cancellation: 1e5 Pa times 1e-16 over 1e-3 °C, some times over; the slope is 870 to 4,200 Pa/°C.
      expect(Math.abs(saturationPressureSlope_Pa_C(t) / central - 1)).toBeLessThan(1e-8);
    }),
    { seed: 5, numRuns: 200 },
  );
});

test('the boiling point is the inverse of the pressure', () => {
  fc.assert(
    fc.property(fc.double({ min: 500, max: 1100, noNaN: true }), (pressure_hPa) => {
      const back_hPa = saturationPressure_Pa(boilingTemperature_C(pressure_hPa)) / 100;
      expect(Math.abs(back_hPa / pressure_hPa - 1)).toBeLessThan(1e-12);
    }),
    { seed: 6, numRuns: 200 },
  );
});

describe('uncertainty of boiling', () => {
  test('1 hPa is 0.028 °C at sea level, and the pot’s own part comes on top', () => {
    const { standardUncertainty_C, contributions } = boilingPoint(1013.25, 1);
    const moved_C = boilingTemperature_C(1013.75) - boilingTemperature_C(1012.75);
    expect(Math.abs(contributions.pressure_C - moved_C)).toBeLessThan(1e-6);
    expect(contributions.pressure_C).toBeCloseTo(0.0277, 4);
    expect(standardUncertainty_C ** 2).toBeCloseTo(contributions.pressure_C ** 2 + 0.15 ** 2, 12);
  });

  test('a height instead of a barometer costs 0.3 °C', () => {
    const { pressure_hPa, standardUncertainty_hPa } = pressureFromAltitude(1000);
    expect(standardUncertainty_hPa).toBeCloseTo(Math.hypot(10, 2), 12);
    const { standardUncertainty_C } = boilingPoint(pressure_hPa, standardUncertainty_hPa);
    expect(standardUncertainty_C).toBeGreaterThan(0.3);
    expect(standardUncertainty_C).toBeLessThan(0.4);
  });

  test('below the sea the height’s part is as large as above it', () => {
    expect(pressureFromAltitude(-400).standardUncertainty_hPa).toBe(
      pressureFromAltitude(400).standardUncertainty_hPa,
    );
  });
});

describe('outside the domain', () => {
  refuses('temperature', saturationPressure_Pa, [59.9, 105.1, 373.15]);
  refuses('temperature of the slope', saturationPressureSlope_Pa_C, [59.9, 105.1]);
  refuses('pressure (also in kPa or Pa)', boilingTemperature_C, [499, 1101, 101.325, 101325, 0, -1000]);
  refuses('uncertainty of the pressure', (u) => boilingPoint(1000, u), [-1, 51]);
  refuses('height', (h) => pressureFromAltitude(h).pressure_hPa, [-431, 5001]);
  takes('pressure', boilingTemperature_C, [500, 1100]);
  takes('height', (h) => pressureFromAltitude(h).pressure_hPa, [-430, 5000]);

  test('every height that is taken has a pressure that boils', () => {
    for (const h of [-430, 0, 2500, 5000])
      expect(boilingTemperature_C(pressureFromAltitude(h).pressure_hPa)).toBeGreaterThan(80);
  });

  test('the message says which pressure', () => {
    expect(() => boilingTemperature_C(101.325)).toThrow(
      'air pressure at the place, hPa, must be in [500, 1100], got 101.325',
    );
  });
});
