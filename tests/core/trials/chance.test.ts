/** Treatments drawn for beds, drawn anew, and compared by what they lose. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assignTreatments } from '../../../services/core/trials/assign.js';
import {
  type BedValue,
  compareSurvival,
  perBed,
  type RootsSeen,
  survivalWords,
  valuesCsv,
} from '../../../services/core/trials/index.js';
import { permutationTest } from '../../../services/core/trials/permutation.js';

const SEED = 20260504;
const bed = (id: string, treatment: string, value: number, block?: string): BedValue =>
  Object.freeze({ bed: id, treatment, value, ...(block !== undefined && { block }) });
const refused = (code: string, sentence: RegExp) =>
  expect.objectContaining({ code, message: expect.stringMatching(sentence) });

describe('assigning treatments', () => {
  const six = ['p6', 'p2', 'p3', 'p1', 'p5', 'p4'].map((id) => ({
    bed: id,
    block: `row ${Number(id[1]) > 3}`,
  }));

  test('the same seed gives the same, however the beds are named; another gives another', () => {
    const one = assignTreatments(six, ['fine', 'coarse', 'mixed'], 'blocks', 7);
    expect(assignTreatments([...six].reverse(), ['fine', 'coarse', 'mixed'], 'blocks', 7)).toEqual(one);
    const seeds = new Set(
      Array.from({ length: 20 }, (_, seed) =>
        JSON.stringify(assignTreatments(six, ['f', 'c', 'm'], 'blocks', seed)),
      ),
    );
    expect(seeds.size).toBeGreaterThan(10);
  });

  test('each treatment as often in all, and in every block', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 999_999_999 }),
        fc.constantFrom('complete', 'blocks'),
        (seed, by) => {
          const given = assignTreatments(six, ['fine', 'coarse', 'mixed'], by as 'complete', seed);
          expect(given.map((one) => one.treatment).sort()).toEqual([
            'coarse',
            'coarse',
            'fine',
            'fine',
            'mixed',
            'mixed',
          ]);
          if (by === 'blocks')
            for (const block of ['row true', 'row false'])
              expect(
                new Set(given.filter((one) => one.block === block).map((one) => one.treatment)).size,
              ).toBe(3);
        },
      ),
      { seed: SEED, numRuns: 50 },
    );
  });

  test('every order comes about equally often: chi-square of 6 orders in 1,200 seeds below its 0.1 % limit of 20.5', () => {
    const counts = new Map<string, number>();
    for (let seed = 0; seed < 1200; seed += 1) {
      const order = assignTreatments(six.slice(0, 3), ['a', 'b', 'c'], 'complete', seed)
        .map(({ treatment }) => treatment)
        .join('');
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    expect([...counts.values()].reduce((sum, count) => sum + (count - 200) ** 2 / 200, 0)).toBeLessThan(20.5);
  });

  test.each<[() => unknown, string, RegExp]>([
    [
      () => assignTreatments(six, ['a'], 'complete', 1),
      'TOO_FEW_SAMPLES',
      /treatments: expected two or more, got 1/,
    ],
    [
      () => assignTreatments(six, ['a', 'a'], 'complete', 1),
      'CONFLICT',
      /treatments: expected each once, got "a" twice/,
    ],
    [
      () => assignTreatments([...six, { bed: 'p1' }], ['a', 'b'], 'complete', 1),
      'CONFLICT',
      /beds: expected each once, got "p1"/,
    ],
    [
      () => assignTreatments(six.slice(1), ['a', 'b'], 'complete', 1),
      'TOO_FEW_SAMPLES',
      /beds: expected a multiple of the 2 treatments/,
    ],
    [
      () => assignTreatments(six, ['a', 'b'], 'blocks', 1),
      'TOO_FEW_SAMPLES',
      /block "row false": expected a multiple of the 2/,
    ],
    [
      () => assignTreatments([{ bed: 'p1' }, { bed: 'p2' }], ['a', 'b'], 'blocks', 1),
      'TOO_FEW_SAMPLES',
      /bed "p1": expected its block/,
    ],
    [
      () => assignTreatments(six, ['a', 'b'], 'complete', -1),
      'OUT_OF_DOMAIN',
      /seed: expected a whole number from 0/,
    ],
    [() => assignTreatments(six, ['a', 'b'], 'complete', 0.5), 'OUT_OF_DOMAIN', /seed/],
  ])('%#: refuses', (make, code, sentence) => {
    expect(make).toThrow(refused(code, sentence));
  });
});

describe('survival', () => {
  const seen = (
    id: string,
    treatment: string,
    time: number,
    lost: boolean,
    roots: number,
    block?: string,
  ): RootsSeen => ({
    ...{ bed: id, treatment, time, lost, roots, block },
  });
  const BEDS = [
    ...[seen('a1', 'fine', 14, true, 5), seen('a1', 'fine', 28, false, 45), seen('a2', 'fine', 14, true, 9)],
    ...[
      seen('a2', 'fine', 28, false, 41),
      seen('b1', 'coarse', 14, true, 1),
      seen('b1', 'coarse', 28, false, 49),
    ],
    ...[seen('b2', 'coarse', 28, true, 3), seen('b2', 'coarse', 28, false, 47)],
  ];

  test('roots of a bed share its fate: the p that counts is by beds, and cannot be below what the beds allow', () => {
    const found = compareSurvival(BEDS);
    expect(found.clustered).toBe(true);
    expect(found.byBed?.ways).toBe(6);
    expect(found.byBed?.p).toBeGreaterThan(0.3);
    expect(found.logRank.p).toBeLessThan(0.05);
    expect(found.treatments[0]?.kept).toBeCloseTo((45 / 50 + 41 / 50) / 2, 12);
    expect(found.differences[0]?.difference.estimate).toBeCloseTo(
      (49 / 50 + 47 / 50) / 2 - (45 / 50 + 41 / 50) / 2,
      12,
    );
  });

  test.each<[string, readonly RootsSeen[], string, RegExp]>([
    ['one treatment', BEDS.slice(0, 4), 'TOO_FEW_SAMPLES', /two or more to compare/],
    [
      'one bed of several roots',
      BEDS.slice(0, 6),
      'TOO_FEW_SAMPLES',
      /treatment "coarse": expected at least 2 beds/,
    ],
    ['nothing lost', BEDS.map((one) => ({ ...one, lost: false })), 'TOO_FEW_SAMPLES', /expected losses/],
    [
      'a bed of two treatments',
      [...BEDS, seen('a1', 'coarse', 3, true, 1)],
      'CONFLICT',
      /bed "a1": expected one treatment/,
    ],
    [
      'a bed of two blocks',
      [...BEDS, seen('a1', 'fine', 3, true, 1, 'x')],
      'CONFLICT',
      /bed "a1": expected one block/,
    ],
    ['no roots', [...BEDS, seen('c', 'fine', 3, true, 0)], 'OUT_OF_DOMAIN', /more than 0 roots/],
    [
      'a time before the filling',
      [...BEDS, seen('c', 'fine', -1, true, 1)],
      'OUT_OF_DOMAIN',
      /a time of 0 or more/,
    ],
    ['no time', [...BEDS, seen('c', 'fine', Number.NaN, true, 1)], 'OUT_OF_DOMAIN', /a time of 0 or more/],
  ])('refuses %s', (_, roots, code, sentence) => {
    expect(() => compareSurvival(roots)).toThrow(refused(code, sentence));
  });
});

describe('giving treatments anew', () => {
  test('four beds of each, as far apart as can be: about 2 of the 70 ways are as large', () => {
    const beds = perBed(
      [1, 2, 3, 4, 11, 12, 13, 14].map((value, at) => bed(`p${at}`, at < 4 ? 'a' : 'b', value)),
    );
    const { p, ways } = permutationTest(beds);
    expect(ways).toBe(70);
    expect(Math.abs(p - 2 / 70)).toBeLessThan(0.006);
  });

  test('within blocks only', () => {
    const beds = perBed(
      [1, 2, 3, 4, 11, 12].map((value, at) =>
        bed(`p${at}`, at % 2 === 0 ? 'a' : 'b', value, `${Math.floor(at / 2)}`),
      ),
    );
    const { p, ways } = permutationTest(beds);
    expect(ways).toBe(8);
    expect(Math.abs(p - 2 / 8)).toBeLessThan(0.02);
  });
});

describe('what is written of a trial', () => {
  test('has no digits of the computer’s own rounding', () => {
    const row = { bed: 'a', treatment: 'fine', block: null, day: 20, reached: null, missing: null };
    expect(valuesCsv([{ ...row, value: 1.0000000000000009 }], false)).toBe(
      'bed,treatment,block,value\r\na,fine,,1\r\n',
    );
  });

  test('says of shares that pass 100 % why they do, and only of those', () => {
    const seen = (bed: string, treatment: string, lost: number) => [
      { bed, treatment, time: 10, lost: true, roots: lost },
      { bed, treatment, time: 90, lost: false, roots: 20 - lost },
    ];
    const said = (lost: number) =>
      survivalWords(
        compareSurvival([
          ...seen('a', 'x', 1),
          ...seen('b', 'x', lost),
          ...seen('c', 'y', 8),
          ...seen('d', 'y', 9),
        ]),
      );
    expect(said(3).assumptions.join()).toContain('as if a share had no ends');
    expect(said(1.1).assumptions.join()).not.toContain('as if a share had no ends');
  });
});
