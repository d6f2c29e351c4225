import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SALTS, type SaltId, saltHumidity_RH, saltPoint } from '../../../services/core/calibration/salts.js';
import { codeOf, refuses, takes } from '../physics/refused.js';

const near = (found: number, expected: number, tolerance: number): void =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance);

describe('the list', () => {
  test('has nine salts from 11 to 98 %RH at 25 °C, each driest first and named once', () => {
    const humidities = SALTS.map(({ id }) => saltHumidity_RH(id, 25).humidity_RH);
    expect(humidities).toEqual([...humidities].sort((one, other) => one - other));
    expect(new Set(SALTS.map(({ formula }) => formula)).size).toBe(9);
  });

  test('nitrates and lithium chloride carry their own cautions', () => {
    const withCaution = (key: string) =>
      SALTS.filter(({ cautions }) => cautions.some((own) => own === key)).map(({ formula }) => formula);
    expect(withCaution('nitrate')).toEqual(['Mg(NO3)2', 'KNO3']);
    expect(withCaution('lithium-chloride')).toEqual(['LiCl']);
  });
});

describe('uncertainty of the published value', () => {
  test('is half of the ± between the rows, linearly', () => {
    near(saltHumidity_RH('sodium-chloride', 20).standardUncertainty_RH, 0.07, 1e-12);
    near(saltHumidity_RH('sodium-chloride', 22.5).standardUncertainty_RH, 0.065, 1e-12);
    near(saltHumidity_RH('sodium-chloride', 30).standardUncertainty_RH, 0.055, 1e-12);
  });

  test.each([
    ['sodium-chloride', 14.9, 0.135],
    ['sodium-chloride', 30.1, 0.135],
    ['potassium-carbonate', 12, 0.375],
  ] as const)('of %s at %d °C, beyond the table, is 1.5 times the larger end and said so', (id, t, u) => {
    const { standardUncertainty_RH, source } = saltHumidity_RH(id, t);
    near(standardUncertainty_RH, u, 1e-12);
    expect(source).toContain('by judgement');
  });

  test('of potassium nitrate is 1 %RH all over its range', () => {
    for (const t of [10, 20, 35]) near(saltHumidity_RH('potassium-nitrate', t).standardUncertainty_RH, 1, 0);
    expect(saltHumidity_RH('potassium-nitrate', 20).source).toContain('CRC');
  });
});

describe('slope with temperature', () => {
  test('is the central difference, for every salt, away from the table’s rows', () => {
    const STEP_C = 0.01;
    fc.assert(
      fc.property(
        fc.constantFrom(...SALTS),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.integer({ min: 0, max: 2 }),
        ({ id }, place, row) => {
          const t = 15 + 5 * (row + place);
          const at = (there_C: number): number => saltHumidity_RH(id, there_C).humidity_RH;
          const central = (at(t + STEP_C) - at(t - STEP_C)) / (2 * STEP_C);
          // Third derivative of sodium chloride over 6 times the step squared is 3e-9; the rest is cancellation.
          near(saltHumidity_RH(id, t).slope_RH_C, central, 1e-8);
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  test('a table’s last row is its last value', () => {
    near(saltHumidity_RH('magnesium-nitrate', 30).humidity_RH, 51.4, 1e-12);
    near(saltHumidity_RH('magnesium-nitrate', 25).humidity_RH, 52.89, 1e-12);
    near(saltHumidity_RH('sodium-bromide', 17.5).humidity_RH, (60.68 + 59.14) / 2, 1e-12);
  });
});

describe('a salt jar', () => {
  test('0.1 °C between probe and salt at 75 %RH and 20 °C is 0.47 %RH, as a rectangle', () => {
    // 75.479 * 17.62 * 243.12 / 263.12^2 * 0.1 = 0.46704 %RH by the derivative of the Magnus form [computed by hand].
    const { contributions } = saltPoint('sodium-chloride', 20, 0, 0.1);
    near(contributions.probeDifference_RH * Math.sqrt(3), 0.467, 0.0005);
    expect(contributions.temperature_RH).toBe(0);
  });

  test('contributions add by their squares', () => {
    const { standardUncertainty_RH, contributions } = saltPoint('magnesium-nitrate', 20, 0.5, 0.2);
    const { published_RH, temperature_RH, probeDifference_RH } = contributions;
    near(temperature_RH, 0.298 * 0.5, 1e-9);
    near(
      standardUncertainty_RH ** 2,
      published_RH ** 2 + temperature_RH ** 2 + probeDifference_RH ** 2,
      1e-12,
    );
  });

  test('without a word a difference of 0.1 °C is taken, and none only where none is said', () => {
    expect(saltPoint('sodium-chloride', 20, 0.1)).toEqual(saltPoint('sodium-chloride', 20, 0.1, 0.1));
    expect(saltPoint('sodium-chloride', 20, 0.1, 0).contributions.probeDifference_RH).toBe(0);
  });
});

describe('outside the domain', () => {
  const humidity = (id: SaltId) => (t: number) => saltHumidity_RH(id, t).humidity_RH;
  refuses('temperature of sodium chloride', humidity('sodium-chloride'), [9.9, 35.1, 293.15]);
  refuses('temperature of sodium bromide', humidity('sodium-bromide'), [14.9, 30.1]);
  refuses('temperature of potassium carbonate', humidity('potassium-carbonate'), [30.1]);
  refuses('uncertainty', (u) => saltPoint('sodium-chloride', 20, u), [-0.1, 5.1]);
  refuses('difference', (d) => saltPoint('sodium-chloride', 20, 0.1, d), [-0.1, 2.1]);
  takes('temperature of sodium chloride', humidity('sodium-chloride'), [10, 35]);
  takes('temperature of magnesium nitrate', humidity('magnesium-nitrate'), [15, 30]);

  test('the message names the salt and its range', () => {
    expect(() => saltHumidity_RH('magnesium-nitrate', 40)).toThrow(
      'temperature of magnesium nitrate, °C, must be in [15, 30], got 40',
    );
    expect(codeOf(() => saltPoint('potassium-sulfate', 5, 0.1))).toBe('OUT_OF_DOMAIN');
  });
});
