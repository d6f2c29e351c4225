/** What comparisons of treatments refuse, and what holds of them whatever the numbers. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { holm } from '../../../services/core/trials/holm.js';
import {
  type BedValue,
  compare,
  mainTest,
  perBed,
  summaryCurves,
} from '../../../services/core/trials/index.js';
import { shiftOf } from '../../../services/core/trials/kruskal.js';
import { ranksOf } from '../../../services/core/trials/ranks.js';

const SEED = 20260504;
const bed = (id: string, treatment: string, value: number, block?: string): BedValue =>
  Object.freeze({ bed: id, treatment, value, ...(block !== undefined && { block }) });
const refused = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });

const SAND = [bed('a1', 'fine', 1), bed('a2', 'fine', 2), bed('b1', 'coarse', 4), bed('b2', 'coarse', 6)];

describe('a bed is one number', () => {
  test('readings of a bed are not beds', () => {
    expect(() => perBed([...SAND, bed('a1', 'fine', 3)])).toThrow(
      refused(
        'CONFLICT',
        /^bed "a1": expected one number that stands for it, got two: readings of a bed are not beds$/,
      ),
    );
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('%d is no number', (value) => {
    expect(() => perBed([bed('a1', 'fine', value)])).toThrow(
      refused('OUT_OF_DOMAIN', /bed "a1": expected a number/),
    );
  });

  test('plain lists do not compile', () => {
    // @ts-expect-error a list of values has not been through perBed
    expect(() => compare('welch', SAND)).not.toThrow();
  });
});

describe.each(['welch', 'anova', 'kruskal', 'blocks'] as const)('%s refuses', (design) => {
  test.each<[string, readonly BedValue[], RegExp]>([
    ['no beds', [], /treatments: expected two or more to compare, got none/],
    ['one treatment', SAND.slice(0, 2), /got "fine" alone/],
    ['a treatment with one bed', SAND.slice(0, 3), /treatment "coarse": expected at least 2 beds, got 1/],
    [
      'beds that do not differ',
      ['a', 'b', 'c', 'd'].map((id, at) => bed(id, at < 2 ? 'x' : 'y', 5, `b${at % 2}`)),
      /differ|scatter/,
    ],
  ])('%s', (_, beds, sentence) => {
    expect(() => compare(design, perBed(beds))).toThrow(refused('TOO_FEW_SAMPLES', sentence));
  });
});

describe('blocks refuse', () => {
  const inBlocks = (blocks: readonly (string | undefined)[]) =>
    perBed(SAND.map((one, at) => ({ ...one, ...(blocks[at] !== undefined && { block: blocks[at] }) })));

  test.each<[readonly (string | undefined)[], RegExp]>([
    [['x', 'y', 'x'], /bed "b2": expected its block, got none/],
    [['x', 'x', 'x', 'x'], /blocks: expected two or more, got 1/],
    [['x', 'x', 'y', 'y'], /to be told apart/],
    [['x', 'y', 'z', 'w'], /beds: expected more than the 5/],
  ])('%j', (blocks, sentence) => {
    expect(() => compare('blocks', inBlocks(blocks))).toThrow(refused('TOO_FEW_SAMPLES', sentence));
  });

  test('beds that differ by rounding alone', () => {
    const rows = [1.5, 3, 4.5, 6].map((value, at) => ({
      ...{ bed: `b${at}`, treatment: at % 2 ? 'fine' : 'coarse', block: at < 2 ? 'north' : 'south' },
      value: value + 0.1,
    }));
    expect(() => compare('blocks', rows as never)).toThrow(refused('TOO_FEW_SAMPLES', /expected scatter/));
  });

  test('a bed that is missing leaves treatments compared as far as blocks hold them [C: by hand, two blocks hold both]', () => {
    const beds = perBed([
      ...[
        bed('a', 'x', 1, '1'),
        bed('b', 'y', 4, '1'),
        bed('c', 'x', 2, '2'),
        bed('d', 'y', 7, '2'),
        bed('e', 'x', 9, '3'),
      ],
    ]);
    const { differences } = compare('blocks', beds);
    expect(differences[0]?.difference.estimate).toBeCloseTo(4, 12);
    expect(mainTest(compare('blocks', beds)).df).toEqual([1, 1]);
  });
});

describe('whatever the numbers', () => {
  const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 6, maxLength: 12 });
  const bedsFrom = (numbers: readonly number[], shift = 0, scale = 1) =>
    perBed(
      numbers.map((value, at) =>
        bed(`bed-${at}`, `t${at % 3}`, value * scale + shift, `b${Math.floor(at / 3)}`),
      ),
    );

  test.each(['welch', 'anova', 'kruskal', 'blocks'] as const)(
    '%s: moving or stretching all values changes no p',
    (design) => {
      fc.assert(
        fc.property(values, fc.integer({ min: -1e6, max: 1e6 }), (numbers, shift) => {
          fc.pre(new Set(numbers).size === numbers.length);
          const [one, other] = [
            compare(design, bedsFrom(numbers)),
            compare(design, bedsFrom(numbers, shift, 4)),
          ];
          expect(mainTest(other).p).toBeCloseTo(mainTest(one).p, 9);
          one.differences.forEach(({ difference, p }, at) => {
            expect(other.differences[at]?.difference.estimate).toBeCloseTo(4 * difference.estimate, 6);
            expect(other.differences[at]?.p).toBeCloseTo(p, 7);
            expect(difference.low).toBeLessThanOrEqual(difference.estimate);
            expect(difference.high).toBeGreaterThanOrEqual(difference.estimate);
          });
        }),
        { seed: SEED, numRuns: 4 },
      );
    },
  );

  test('ranks add up to n (n + 1) / 2', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1 }), (numbers) => {
        const { ranks } = ranksOf(numbers);
        expect(ranks.reduce((sum, rank) => sum + rank, 0)).toBe((numbers.length * (numbers.length + 1)) / 2);
      }),
      { seed: SEED },
    );
  });
});

test('Holm by hand: the least p four times, then three times, never falling', () => {
  expect(holm([0.01, 0.04, 0.03, 0.005]).map((p) => Number(p.toFixed(10)))).toEqual([0.03, 0.06, 0.06, 0.02]);
  expect(holm([0.6, 0.9])).toEqual([1, 1]);
  expect(holm([])).toEqual([]);
});

test('a shift and its interval [C: Python; the 24th and 77th of the 100 differences]', () => {
  const one = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
  const two = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const { estimate, low, high } = shiftOf(one, two, 0.95);
  expect([estimate, low, high].map((each) => Number(each.toFixed(9)))).toEqual([1.35, -0.1, 3.6]);
});

test('a curve counts each bed once at a time, and gives no interval to one bed', () => {
  const [fine] = summaryCurves([
    {
      bed: 'a',
      treatment: 'fine',
      points: [
        { time: 7, value: 4 },
        { time: 0, value: 1 },
      ],
    },
    { bed: 'b', treatment: 'fine', points: [{ time: 0, value: 3 }] },
  ]);
  expect(fine?.points.map(({ time, beds, mean }) => [time, beds, mean])).toEqual([
    [0, 2, 2],
    [7, 1, 4],
  ]);
  expect(fine?.points[1]).toMatchObject({ low: null, high: null });
  // t of one degree of freedom at 97.5 % is 12.7062, the standard error 1.
  expect(fine?.points[0]?.high).toBeCloseTo(2 + 12.7062047362, 8);
});
