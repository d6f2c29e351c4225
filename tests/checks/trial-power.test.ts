/** Power, distributions and chance against published values. */
import { describe, expect, test } from 'vitest';
import {
  chiSquareP,
  fisherP,
  fisherPower,
  normalP,
  rangeFactor,
  rangeP,
  studentFactor,
  studentP,
  studentPower,
} from '../../services/core/trials/distributions.js';
import { bedsNeeded, powerOf } from '../../services/core/trials/index.js';
import { Pcg32 } from '../../services/core/trials/pcg32.js';

const question = { by: 'complete', difference: 1, sd: 1, alpha: 0.05 } as const;

describe('power', () => {
  test('power.t.test(n = 20, delta = 1) 0.8689528; n = 4 0.2224633 [V: R, stats, printed examples]', () => {
    expect(powerOf({ ...question, treatments: 2 }, 20)).toBeCloseTo(0.8689528, 6);
    // R leaves out rejection on the wrong side, 0.0002 here.
    expect(Math.abs(powerOf({ ...question, treatments: 2 }, 4) - 0.2224633)).toBeLessThan(0.003);
  });

  test('beds for a power: n = 22.02 and 16.71 round up [V: R, power.t.test(power = .9 and .8, delta = 1)]', () => {
    expect(bedsNeeded({ ...question, treatments: 2 }, 0.9)).toBe(23);
    expect(bedsNeeded({ ...question, treatments: 2 }, 0.8)).toBe(17);
  });

  test('power.anova.test(groups = 4, n = 5, between.var = 1, within.var = 3) 0.3535594; n = 11.92613 for 0.8 [V: R]', () => {
    // Of two means sqrt(2) standard deviations apart and two midway the between-variance is a third.
    const four = { ...question, treatments: 4, difference: Math.SQRT2 };
    expect(powerOf(four, 5)).toBeCloseTo(0.3535594, 7);
    expect(bedsNeeded(four, 0.8)).toBe(12);
  });

  test.each([
    [0.2, 394],
    [0.5, 64],
    [0.8, 26],
  ] as const)(
    'two treatments %d standard deviations apart need %d beds each for 0.8 [from memory: J. Cohen 1988, table 2.4.1, within one; C]',
    (difference, beds) => {
      expect(bedsNeeded({ ...question, treatments: 2, difference }, 0.8)).toBe(beds);
    },
  );

  test('blocks leave fewer degrees of freedom [L: scipy 1.17, ncf]', () => {
    const blocks = { ...question, by: 'blocks', treatments: 3, difference: 2 } as const;
    expect(powerOf(blocks, 5)).toBeCloseTo(fisherPower(0.05, 2, 8, 10), 12);
  });

  test.each([1, 1.999, 10_001, Number.NaN])('refuses %d beds of a treatment', (beds) => {
    expect(() => powerOf({ ...question, treatments: 2 }, beds)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test.each([
    [{ treatments: 1 }],
    [{ treatments: 2, difference: 0 }],
    [{ treatments: 2, sd: Number.NaN }],
    [{ treatments: 2, alpha: 1 }],
  ])('refuses %j', (wrong) => {
    expect(() => bedsNeeded({ ...question, ...wrong }, 0.8)).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });

  test('a difference that no number of beds would show is said to be one', () => {
    expect(() => bedsNeeded({ ...question, treatments: 2, difference: 1e-6 }, 0.8)).toThrow(
      /too small beside the scatter/,
    );
  });
});

/** [L: scipy 1.17]; relative. */
test.each<[string, number, number, number]>([
  ['t far out', studentP(12.62059, 326), 5.272993424784744e-30, 1e-10],
  ['t of 3', studentP(50, 3), 1.761715204127197e-5, 1e-12],
  ['factor of 1.3 degrees', studentFactor(0.95, 1.3), 7.500529325562029, 1e-9],
  ['F', fisherP(12.25873, 1, 12), 0.004371816671358364, 1e-12],
  ['F far out', fisherP(1000, 3, 60), 3.67383336972235e-51, 1e-10],
  ['noncentral F', fisherPower(0.05, 2, 12, 5), 0.4052732345777341, 1e-13],
  ['noncentral F of many beds', fisherPower(0.05, 19, 199_980, 30), 0.9485336443451379, 1e-10],
  ['range', rangeP(3.5, 3, 20), 0.055891849081749, 1e-12],
  ['range of a fraction of degrees', rangeP(4, 4, 7.3), 0.09081970630360914, 1e-12],
  ['range of 20 means with 2 degrees', rangeP(10, 20, 2), 0.13342748282433803, 1e-12],
  ['range of 1000 means', rangeP(6, 1000, 50), 0.7439895095323429, 1e-10],
  ['factor of the range', rangeFactor(0.95, 10, 5), 6.994697767888188, 1e-10],
  ['power of t', studentPower(0.05, 20, 1.5), 0.2978405354632533, 1e-12],
  ['chi-square of 1', chiSquareP(16.7929409892, 1), 4.168809109370859e-5, 1e-12],
  ['chi-square of 1000', chiSquareP(1200, 1000), 1.2255942330622893e-5, 1e-10],
])('%s', (_, value, expected, tolerance) => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(tolerance);
});

describe('what follows from other distributions', () => {
  test.each([
    [3, 7.5],
    [3, 2],
    [0.5, 20],
    [10, 3],
  ])('the range of two means is a t: %d with %d degrees', (q, df) => {
    expect(Math.abs(rangeP(q, 2, df) / studentP(q / Math.SQRT2, df) - 1)).toBeLessThan(1e-12);
  });

  test('chi-square of 1 is the square of a normal, of 2 an exponential', () => {
    for (const value of [0, 0.1, 1.9, 2.1, 3.84, 30, 500]) {
      expect(Math.abs(chiSquareP(value, 1) / normalP(Math.sqrt(value)) - 1)).toBeLessThan(1e-12);
      expect(Math.abs(chiSquareP(value, 2) / Math.exp(-value / 2) - 1)).toBeLessThan(1e-12);
    }
  });

  test('an effect of nothing is found as often as alpha says, one without end always', () => {
    expect(Math.abs(fisherPower(0.05, 3, 10, 0) / 0.05 - 1)).toBeLessThan(1e-12);
    for (const effect of [1e5, 1e300, Number.POSITIVE_INFINITY])
      expect(fisherPower(0.05, 1, 10, effect)).toBe(1);
    // Either side of where the sum of squares between is taken as known.
    const [below, above] = [19_999, 20_001].map((effect) => fisherPower(1e-6, 1, 1, effect));
    expect(Math.abs((above as number) / (below as number) - 1)).toBeLessThan(1e-4);
  });

  test.each([
    [2, 10, 3.151],
    [3, 20, 3.578],
    [5, 10, 4.654],
    [10, 60, 4.646],
    [3, 1e9, 3.314],
  ])(
    'points exceeded in one of twenty: of the range of %d means with %d degrees those of printed tables [from memory: H. L. Harter, Ann. Math. Stat. 31 (1960)]',
    (means, df, printed) => {
      expect(Math.abs(rangeFactor(0.95, means, df) - printed)).toBeLessThan(0.00051);
    },
  );

  test.each([
    () => rangeP(3, 3, 1.9),
    () => rangeP(Number.NaN, 3, 10),
    () => rangeP(3, 1, 10),
    () => rangeFactor(1, 3, 10),
    () => chiSquareP(-1, 2),
    () => chiSquareP(1, 0),
    () => fisherPower(0.05, 2, 10, -1),
    () => fisherPower(0, 2, 10, 1),
  ])('%s is refused', (asked) => {
    expect(asked).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  });
});

/** Printed by the demonstration of the generator's author, seed 42, stream 54, rounds 1 and 5 [V: pcg-random.org, using PCG]. */
describe('PCG32', () => {
  const hex = (value: number): string => `0x${value.toString(16).padStart(8, '0')}`;

  test('numbers, coins, rolls and cards of the first round', () => {
    const chance = new Pcg32(42n, 54n);
    expect(Array.from({ length: 6 }, () => hex(chance.next())).join(' ')).toBe(
      '0xa15c02b7 0x7b47f409 0xba1d3330 0x83d2f293 0xbfa4784b 0xcbed606e',
    );
    expect(Array.from({ length: 65 }, () => (chance.below(2) === 1 ? 'H' : 'T')).join('')).toBe(
      'HHTTTHTHHHTHTTTHHHHHTTTHHHTHTHTHTTHTTTHHHHHHTTTTHHTTTTTHTTTTTTTHT',
    );
    expect(Array.from({ length: 33 }, () => chance.below(6) + 1).join(' ')).toBe(
      '3 4 1 1 2 2 3 2 4 3 2 4 3 3 5 2 3 1 3 1 5 1 4 1 5 6 4 6 6 2 6 3 3',
    );
    const cards = Array.from(
      { length: 52 },
      (_, at) => `${'A23456789TJQK'[Math.floor(at / 4)]}${'hcds'[at % 4]}`,
    );
    expect(chance.shuffled(cards).join(' ')).toBe(
      'Qd Ks 6d 3s 3d 4c 3h Td Kc 5c Jh Kd Jd As 4s 4h Ad Th Ac Jc 7s Qs ' +
        '2s 7h Kh 2d 6c Ah 4d Qh 9h 6s 5s 2c 9c Ts 8d 9s 3c 8c Js 5d 2h 6h ' +
        '7d 8s 9d 5h 8h Qc 7c Tc',
    );
  });

  test('numbers of the fifth round', () => {
    const chance = new Pcg32(42n, 54n);
    for (let drawn = 0; drawn < 620; drawn += 1) chance.next();
    expect(Array.from({ length: 6 }, () => hex(chance.next())).join(' ')).toBe(
      '0xfcef7cd6 0x1b488b5a 0xd0daf7ea 0x1d9a70f7 0x241a37cf 0x9a3857b7',
    );
  });

  test.each([0, 1.5, -1, 2 ** 32, Number.NaN])('refuses the bound %d', (bound) => {
    expect(() => new Pcg32(1n, 1n).below(bound)).toThrow(expect.objectContaining({ code: 'OUT_OF_DOMAIN' }));
  });
});
