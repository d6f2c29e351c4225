import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asymptoticEwmaLimits,
  type CusumDesign,
  type CusumState,
  cusumStateSchema,
  type EwmaState,
  ewmaLimits,
  ewmaRunLength,
  ewmaStateSchema,
  isOutside,
  startCusum,
  startEwma,
  stepCusum,
  stepEwma,
  twoSidedCusumRunLength,
} from '../../../../services/core/watch/sequential/index.js';
import { seededNormal } from './seeded-normal.js';

const SEED = 20260504;
const DESIGN = { target: 10, slack: 0.5, limit: 4 };
const EWMA = { target: 10, deviation: 2, weight: 0.2, width: 3 };
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
const NO_NUMBERS = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

const cusumOf = (values: readonly number[], from = startCusum()): CusumState =>
  values.reduce((state, value) => stepCusum(state, value, DESIGN), from);
const ewmaOf = (values: readonly number[], from = startEwma(10)): EwmaState =>
  values.reduce((state, value) => stepEwma(state, value, 0.2), from);

const series = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 60 });

describe('a chart carried in a checkpoint', () => {
  test('goes on as if it had never stopped', () => {
    fc.assert(
      fc.property(series, fc.nat(60), (values, cut) => {
        const head = values.slice(0, cut);
        const tail = values.slice(cut);
        const cusum = cusumStateSchema.parse(JSON.parse(JSON.stringify(cusumOf(head))));
        const ewma = ewmaStateSchema.parse(JSON.parse(JSON.stringify(ewmaOf(head))));
        expect(cusumOf(tail, cusum)).toEqual(cusumOf(values));
        expect(ewmaOf(tail, ewma)).toEqual(ewmaOf(values));
      }),
      { seed: SEED },
    );
  });

  test('is frozen, and a step leaves the former state as it was', () => {
    const before = cusumOf([14]);
    stepCusum(before, 20, DESIGN);
    expect(before).toEqual(cusumOf([14]));
    for (const state of [startCusum(), before, startEwma(1), ewmaOf([14])])
      expect(Object.isFrozen(state)).toBe(true);
  });

  test.each([
    ['a sum below 0', { ...startCusum(), high: -1 }],
    ['a sum that is missing', { ...startCusum(), low: null }],
    ['a word too many', { ...startCusum(), extra: 1 }],
  ])('%s is refused', (_, damaged) => {
    expect(cusumStateSchema.safeParse(damaged).success).toBe(false);
  });
});

describe('cumulative sum', () => {
  test('the two sides are mirror images about the target', () => {
    fc.assert(
      fc.property(series, (values) => {
        const straight = cusumOf(values);
        const mirrored = cusumOf(values.map((value) => 2 * DESIGN.target - value));
        expect(mirrored.high).toBeCloseTo(straight.low, 9);
        expect(mirrored.low).toBeCloseTo(straight.high, 9);
      }),
      { seed: SEED },
    );
  });

  test('a value at the limit is no signal, one above it is', () => {
    expect(cusumOf([14.5]).signalAt).toBe(null);
    expect(cusumOf([14.5001]).signalAt).toBe(1);
    expect(cusumOf([5.4999]).signalAt).toBe(1);
  });

  test('the first signal stays, and the count since 0 tells how long the shift has lasted', () => {
    const state = cusumOf([9, 12, 12, 12, 12, 8, 8]);
    expect(state).toMatchObject({ taken: 7, signalAt: 4 });
    expect(cusumOf([9, 12, 12, 12])).toMatchObject({ highSince: 3, lowSince: 0 });
  });

  test.each<[string, number, CusumDesign]>([
    ...NO_NUMBERS.map((x) => ['observation', x, DESIGN] as [string, number, CusumDesign]),
    ['target', 1, { ...DESIGN, target: Number.NaN }],
    ['slack', 1, { ...DESIGN, slack: -0.1 }],
    ['slack', 1, { ...DESIGN, slack: Number.NaN }],
    ['limit', 1, { ...DESIGN, limit: 0 }],
    ['limit', 1, { ...DESIGN, limit: Number.POSITIVE_INFINITY }],
  ])('%s out of its domain is refused: %d', (name, observation, design) => {
    expect(() => stepCusum(startCusum(), observation, design)).toThrow(outOfDomain);
    expect(() => stepCusum(startCusum(), observation, design)).toThrow(new RegExp(`^${name}`));
  });
});

describe('moving average', () => {
  test('a weight of 1 is the last observation', () => {
    expect(stepEwma(startEwma(10), 3, 1)).toEqual({ value: 3, taken: 1 });
  });

  test('it stays between the least and the greatest of start and observations', () => {
    fc.assert(
      fc.property(series, (values) => {
        const { value } = ewmaOf(values);
        expect(value).toBeGreaterThanOrEqual(Math.min(10, ...values) - 1e-9);
        expect(value).toBeLessThanOrEqual(Math.max(10, ...values) + 1e-9);
      }),
      { seed: SEED },
    );
  });

  test('the first exact limit is that of one weighted observation; later ones widen to the asymptotic', () => {
    const first = ewmaLimits(EWMA, 1);
    expect(first.high).toBeCloseTo(10 + 3 * 2 * 0.2, 12);
    expect(ewmaLimits(EWMA, 2).high).toBeGreaterThan(first.high);
    expect(ewmaLimits(EWMA, 500)).toEqual(asymptoticEwmaLimits(EWMA));
  });

  test('a value on a limit is inside, NaN is outside', () => {
    const limits = { low: 1, high: 2 };
    expect([1, 2, 1.5].map((value) => isOutside({ value, taken: 1 }, limits))).toEqual([false, false, false]);
    expect([0.99, 2.01, Number.NaN].map((value) => isOutside({ value, taken: 1 }, limits))).toEqual([
      true,
      true,
      true,
    ]);
  });

  test.each([
    ...NO_NUMBERS.map((x) => () => stepEwma(startEwma(0), x, 0.2)),
    ...NO_NUMBERS.map((x) => () => startEwma(x)),
    ...[0, -1, 1.01, Number.NaN].map((weight) => () => stepEwma(startEwma(0), 1, weight)),
    ...[0, -1, Number.NaN].map((deviation) => () => asymptoticEwmaLimits({ ...EWMA, deviation })),
    ...[0, 101, Number.NaN].map((width) => () => asymptoticEwmaLimits({ ...EWMA, width })),
    () => asymptoticEwmaLimits({ ...EWMA, target: Number.NaN }),
    ...[0, -1, Number.NaN].map((taken) => () => ewmaLimits(EWMA, taken)),
  ])('out of domain is refused: %s', (call) => {
    expect(call).toThrow(outOfDomain);
  });
});

describe('the steps live up to the run lengths', () => {
  /** Mean and standard error of the lengths of simulated runs. */
  function simulated(runs: number, lengthOf: () => number): { mean: number; error: number } {
    const lengths = Array.from({ length: runs }, lengthOf);
    const mean = lengths.reduce((sum, length) => sum + length, 0) / runs;
    const variance = lengths.reduce((sum, length) => sum + (length - mean) ** 2, 0) / (runs - 1);
    return { mean, error: Math.sqrt(variance / runs) };
  }
  /** Standard errors: a right program fails once in some 15,000 seeds, and the seed is given. */
  const WITHIN = 4;

  test.each([0, 0.5, 1, -2])('a cumulative sum under a shift of %d', (shift) => {
    const draw = seededNormal(SEED);
    const { mean, error } = simulated(3000, () => {
      let state = startCusum();
      while (state.signalAt === null)
        state = stepCusum(state, shift + draw(), { target: 0, slack: 0.5, limit: 4 });
      return state.taken;
    });
    const told = twoSidedCusumRunLength({ slack: 0.5, limit: 4, shift });
    expect(Math.abs(mean - told)).toBeLessThan(WITHIN * error);
  });

  test.each([0, 1])('a moving average under a shift of %d', (shift) => {
    const draw = seededNormal(SEED + 1);
    const design = { target: 0, deviation: 1, weight: 0.2, width: 2.5 };
    const limits = asymptoticEwmaLimits(design);
    const { mean, error } = simulated(3000, () => {
      let state = startEwma(0);
      while (!isOutside(state, limits)) state = stepEwma(state, shift + draw(), design.weight);
      return state.taken;
    });
    expect(Math.abs(mean - ewmaRunLength({ weight: 0.2, width: 2.5, shift }))).toBeLessThan(WITHIN * error);
  });
});
