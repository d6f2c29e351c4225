/**
 * EWMA and tabular cumulative sum against worked examples. Tags: [V] seen in the source, [M] from memory, [L]
 * computed with a general-purpose library, [C] computed from the closed form.
 */
import { describe, expect, test } from 'vitest';
import {
  asymptoticEwmaLimits,
  type CusumDesign,
  type CusumState,
  type EwmaState,
  ewmaLimits,
  isOutside,
  startCusum,
  startEwma,
  stepCusum,
  stepEwma,
} from '../../services/core/watch/sequential/index.js';

/** Four decimals are printed. */
const PRINTED = 0.5e-4 + 1e-9;

const expectNear = (found: number | undefined, published: number, tolerance: number): void =>
  expect(Math.abs((found ?? Number.NaN) - published)).toBeLessThanOrEqual(tolerance);

describe('EWMA of NIST/SEMATECH e-Handbook 6.3.2.4', () => {
  // Data [M]; weight 0.3, start 50, deviation 2.0539, width 3; values [L], limits [M] and [L].
  const DATA = [
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
    52.4, 53.6, 52.1,
  ];
  const SMOOTHED = [
    50.0, 50.6, 49.52, 50.564, 50.1848, 50.1594, 49.2116, 49.7481, 49.8537, 50.2576, 50.3303, 50.1112,
    49.3578, 49.5205, 50.0543, 49.378, 49.9246, 50.7272, 51.2291, 51.9403, 51.9882,
  ];
  const DESIGN = { target: 50, deviation: 2.0539, weight: 0.3, width: 3 };
  const states: EwmaState[] = [startEwma(DESIGN.target)];
  for (const x of DATA) states.push(stepEwma(states.at(-1) as EwmaState, x, DESIGN.weight));

  test('every smoothed value', () => {
    expect(states).toHaveLength(SMOOTHED.length);
    SMOOTHED.forEach((published, at) => {
      expectNear(states[at]?.value, published, PRINTED);
    });
  });

  test('the asymptotic limits, 47.4115 [M] or 47.41157 [L] and 52.5884, and no signal', () => {
    const limits = asymptoticEwmaLimits(DESIGN);
    expectNear(limits.high, 52.58843, 0.5e-5);
    expectNear(limits.low, 47.41157, 0.5e-5);
    expect(states.some((state) => isOutside(state, limits))).toBe(false);
  });

  test.each([
    [1, 51.8485],
    [2, 52.2564],
    [3, 52.4314],
    [5, 52.5516],
    [10, 52.5874],
    [20, 52.5884],
  ])('the exact upper limit after %d observations is %d [L]', (taken, published) => {
    const { low, high } = ewmaLimits(DESIGN, taken);
    expectNear(high, published, PRINTED);
    expectNear(low, 100 - published, PRINTED);
  });
});

function runOf(data: readonly number[], design: CusumDesign): CusumState[] {
  let state = startCusum();
  return data.map((x) => {
    state = stepCusum(state, x, design);
    return state;
  });
}

describe('cumulative sum of NIST/SEMATECH e-Handbook 6.3.2.3', () => {
  // Data [M]; target 325, slack 0.3175, limit 4.1959; sums [L], which match the remembered table.
  const DATA = [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15,
    328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ];
  const HIGH = [
    0, 0, 0, 0, 0.0325, 0, 0, 0, 0, 0, 0, 0, 3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035,
  ];
  const LOW = [0, 0.0075, 0, 0.3325, 0, 0, 0.5575, 0.715, 0.1725, 0.255, 0.3125, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  const states = runOf(DATA, { target: 325, slack: 0.3175, limit: 4.1959 });

  test.each(DATA.map((_, at) => [at + 1, HIGH[at] ?? Number.NaN, LOW[at] ?? Number.NaN]))(
    'observation %d: upper %d, lower %d',
    (taken, high, low) => {
      expectNear(states[taken - 1]?.high, high, 1e-9);
      expectNear(states[taken - 1]?.low, low, 1e-9);
    },
  );

  test('first signal at observation 14, and it is kept', () => {
    expect(states.map(({ signalAt }) => signalAt)).toEqual([...Array(13).fill(null), ...Array(7).fill(14)]);
  });

  test('the upper sum left 0 with observation 13', () => {
    expect(states[13]).toMatchObject({ highSince: 2, lowSince: 0 });
  });
});

describe('cumulative sum of Montgomery & Runger, Applied Statistics and Probability for Engineers, Table 16-8', () => {
  // Ex. 16-6, target 99, slack 1, limit 10; data and sums [V], recomputed [L].
  const DATA = [
    102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7,
    100.3, 101.4, 97.2, 101.0,
  ];
  const HIGH = [2.0, 0, 0, 0, 2.0, 0.5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, 0.3, 1.7, 0, 1.0];
  const LOW = [0, 3.2, 2.9, 2.5, 0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 1.0, 2.3, 0, 0, 0.8, 0];
  const states = runOf(DATA, { target: 99, slack: 1, limit: 10 });

  test('both sums at every observation, in control', () => {
    states.forEach(({ high, low, signalAt }, at) => {
      expectNear(high, HIGH[at] ?? Number.NaN, 1e-9);
      expectNear(low, LOW[at] ?? Number.NaN, 1e-9);
      expect(signalAt).toBe(null);
    });
    expect(states).toHaveLength(HIGH.length);
  });
});
