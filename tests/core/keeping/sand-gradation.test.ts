import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gradationOf } from '../../../services/core/keeping/sand-gradation.js';
import { finerThan, grainSizeAt, grainsOf, sizeText } from '../../../services/core/keeping/sand-grains.js';
import { sandLimits } from '../../../services/core/keeping/sand-limits.js';
import { openingOfSieve_mm, SIEVE_OPENINGS_mm } from '../../../services/core/keeping/sand-sieves.js';
import { refuses } from '../physics/refused.js';
import { codeOf, GOOD_SAND, sievingOf } from './some-sand.js';

describe('sieves by number', () => {
  test('openings fall as numbers rise', () => {
    const openings = Object.values(SIEVE_OPENINGS_mm);
    expect(openings).toEqual(openings.toSorted((one, other) => other - one));
    expect(new Set(openings).size).toBe(openings.length);
  });

  test('number and opening are the same sieve', () => {
    const byNumber = {
      sieves: [
        { number: 10, retained_g: 30 },
        { number: 200, retained_g: 60 },
      ],
      pan_g: 10,
    };
    expect(gradationOf(byNumber)).toEqual(
      gradationOf(
        sievingOf(
          [
            [2, 30],
            [0.075, 60],
          ],
          10,
        ),
      ),
    );
  });

  refuses('number', openingOfSieve_mm, [0, 3, 41, -4, 1000]);
});

describe('sieving that cannot be', () => {
  const two = (first: readonly [number, number], second: readonly [number, number], pan_g = 10): string =>
    codeOf(() => gradationOf(sievingOf([first, second], pan_g)));

  test('the one that the others are made from is taken', () => {
    expect(two([2, 30], [0.075, 60])).toBe('no error');
  });

  test.each([
    ['openings that ascend', [0.075, 30], [2, 60], 10],
    ['the same opening twice', [2, 30], [2, 60], 10],
    ['an opening of 0', [2, 30], [0, 60], 10],
    ['an opening below 0', [2, 30], [-0.075, 60], 10],
    ['an opening that is no number', [Number.NaN, 30], [0.075, 60], 10],
    ['a mass below 0', [2, -0.1], [0.075, 60], 10],
    ['a mass that is no number', [2, 30], [0.075, Number.NaN], 10],
    ['an endless mass', [2, Number.POSITIVE_INFINITY], [0.075, 60], 10],
    ['less than nothing in the pan', [2, 30], [0.075, 60], -1],
    ['nothing at all', [2, 0], [0.075, 0], 0],
  ] as const)('%s is refused', (_, first, second, pan_g) => {
    expect(two(first, second, pan_g)).toBe('OUT_OF_DOMAIN');
  });

  test('one sieve is too few', () => {
    expect(codeOf(() => gradationOf(sievingOf([[2, 30]], 10)))).toBe('TOO_FEW_SAMPLES');
  });

  test('the message names both openings', () => {
    expect(() =>
      gradationOf(
        sievingOf(
          [
            [0.5, 1],
            [0.85, 1],
          ],
          1,
        ),
      ),
    ).toThrow('openings of sieves must descend, got 0.85 mm after 0.5 mm');
  });
});

describe('a loss', () => {
  const of = (total_g: number) =>
    gradationOf(
      sievingOf(
        [
          [2, 30],
          [0.075, 60],
        ],
        8,
        total_g,
      ),
    );

  test('of 2 % is taken, and so is a gain', () => {
    expect(of(100).loss_percent).toBeCloseTo(2, 12);
    expect(of(96.1).loss_percent).toBeCloseTo(-1.977, 3);
  });

  test.each([100.1, 95, 196, 0, -98, Number.NaN, Number.POSITIVE_INFINITY])(
    'to %d g is refused',
    (total_g) => {
      expect(codeOf(() => of(total_g))).toBe('OUT_OF_DOMAIN');
    },
  );

  test('is not known where the sample was not weighed', () => {
    expect(
      gradationOf(
        sievingOf(
          [
            [2, 30],
            [0.075, 60],
          ],
          8,
        ),
      ).loss_percent,
    ).toBeUndefined();
  });

  test('may be set as strict as that of a laboratory', () => {
    const strict = sandLimits({ sand_loss_most_percent: 0.3 });
    const sieving = sievingOf(
      [
        [2, 30],
        [0.075, 60],
      ],
      9.6,
      100,
    );
    expect(codeOf(() => gradationOf(sieving))).toBe('no error');
    expect(codeOf(() => gradationOf(sieving, strict))).toBe('OUT_OF_DOMAIN');
  });
});

describe('sizes', () => {
  const gradation = gradationOf(
    sievingOf(
      [
        [2, 20],
        [0.5, 40],
        [0.25, 25],
      ],
      15,
    ),
  );

  test('lie where the share is read off a logarithmic sheet', () => {
    // 50 % lies a quarter of the way from 40 to 80 %: 0.5 mm times 4^(1/4).
    expect(grainSizeAt(gradation, 50).mm).toBeCloseTo(0.5 * Math.SQRT2, 12);
  });

  test('below the smallest sieve are said to be there, not guessed', () => {
    expect(grainSizeAt(gradation, 10)).toEqual({ is: 'below', mm: 0.25 });
    expect(sizeText(grainSizeAt(gradation, 10))).toBe('below 0.25 mm');
  });

  test('above the largest sieve too', () => {
    expect(grainSizeAt(gradation, 90)).toEqual({ is: 'above', mm: 2 });
  });

  test('at a sieve are that sieve', () => {
    expect(grainSizeAt(gradation, 40)).toEqual({ is: 'known', mm: 0.5 });
    expect(grainSizeAt(gradation, 15)).toEqual({ is: 'known', mm: 0.25 });
    expect(grainSizeAt(gradation, 80)).toEqual({ is: 'known', mm: 2 });
  });

  test('at a gap in the sizes are its lower end', () => {
    const gap = gradationOf(
      sievingOf(
        [
          [2, 40],
          [1, 0],
          [0.5, 0],
          [0.25, 40],
        ],
        20,
      ),
    );
    expect(grainSizeAt(gap, 60)).toEqual({ is: 'known', mm: 0.5 });
  });

  test('that are not known leave Cu and Cc unknown', () => {
    const { d10, uniformity, curvature } = grainsOf(gradation);
    expect(d10.is).toBe('below');
    expect([uniformity, curvature]).toEqual([undefined, undefined]);
  });

  test('and shares are inverse to each other', () => {
    const good = gradationOf(GOOD_SAND);
    fc.assert(
      fc.property(fc.double({ min: 1.5, max: 98, noNaN: true }), (percent) => {
        const { low, high } = finerThan(good, grainSizeAt(good, percent).mm);
        expect(low).toBe(high);
        expect(Math.abs(low - percent)).toBeLessThan(1e-9);
      }),
      { seed: 81, numRuns: 200 },
    );
  });

  refuses('share', (percent) => grainSizeAt(gradation, percent), [0, -1, 100, 101]);
  refuses('opening', (opening) => finerThan(gradation, opening), [0, -1]);
});

describe('fines and gravel', () => {
  const of = (pairs: Parameters<typeof sievingOf>[0], pan_g: number) =>
    grainsOf(gradationOf(sievingOf(pairs, pan_g)));

  test('without a sieve of 0.075 mm are between nothing and what fell through', () => {
    expect(
      of(
        [
          [2, 50],
          [0.15, 42],
        ],
        8,
      ).fines,
    ).toEqual({ low: 0, high: 8 });
  });

  test('with nothing in the pan of a coarser sieve are none', () => {
    expect(
      of(
        [
          [2, 50],
          [0.15, 50],
        ],
        0,
      ).fines,
    ).toEqual({ low: 0, high: 0 });
  });

  test('between two sieves are interpolated', () => {
    const { fines } = of(
      [
        [2, 50],
        [0.15, 30],
        [0.0375, 10],
      ],
      10,
    );
    expect(fines.low).toBe(fines.high);
    expect(fines.low).toBeCloseTo(15, 9);
  });

  test('without a sieve of 4.75 mm gravel is at most what lay on the largest', () => {
    expect(
      of(
        [
          [2, 20],
          [0.075, 75],
        ],
        5,
      ).gravel,
    ).toEqual({ low: 0, high: 20 });
  });
});
