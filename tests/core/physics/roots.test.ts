import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { heatOfCarbonDioxide_W_t, respiration_W_kg } from '../../../services/core/physics/index.js';
import { refuses, takes } from './refused.js';

test('ten degrees warmer is Q10 times the heat', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 35, noNaN: true }),
      fc.double({ min: 1, max: 4, noNaN: true }),
      (root_C, q10) => {
        const ratio = respiration_W_kg(root_C + 10, 'cured', q10) / respiration_W_kg(root_C, 'cured', q10);
        expect(Math.abs(ratio / q10 - 1)).toBeLessThan(1e-12);
      },
    ),
    { seed: 81, numRuns: 200 },
  );
});

test('uncured roots breathe more, by the same ratio at each temperature', () => {
  for (const root_C of [15, 20, 30])
    expect(respiration_W_kg(root_C, 'uncured') / respiration_W_kg(root_C)).toBeCloseTo(86 / 59, 12);
});

describe('outside the domain', () => {
  refuses('temperature', respiration_W_kg, [-0.1, 45.1, 293]);
  refuses('Q10', (q10) => respiration_W_kg(20, 'cured', q10), [0, 0.9, 4.1]);
  refuses('CO2', heatOfCarbonDioxide_W_t, [-1, 1001]);
  takes('temperature', (root_C) => respiration_W_kg(root_C), [0, 45]);
  takes('CO2', heatOfCarbonDioxide_W_t, [0, 1000]);
});
