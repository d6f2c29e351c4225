/** What the benches make of their figures; they themselves are run by hand. */
import { describe, expect, test } from 'vitest';
import type { Comparison } from './bench/compare.js';
import { type Figure, growthOf, isMet, medianFigures } from './bench/figures.js';
import { describeComparison, describeFigure, describeRound } from './bench/report.js';

const size = (value: number): Figure => ({ name: 'size at rest', value, unit: 'KiB', goal: 256 });
const growth = (value: number): Figure => ({ name: 'growth', value, unit: '', goal: 1.1 });

describe('figures', () => {
  test('are met up to their goal, and never by what is no number', () => {
    expect(isMet(size(256))).toBe(true);
    expect(isMet(size(256.01))).toBe(false);
    expect(isMet(size(Number.NaN))).toBe(false);
  });

  test('of several rounds are their medians, each by its name', () => {
    const rounds = [
      [size(240), growth(1)],
      [growth(3), size(250)],
      [size(245), growth(1.2)],
    ];
    expect(medianFigures(rounds).map(({ value }) => value)).toEqual([245, 1.2]);
    expect(medianFigures([[], []])).toEqual([]);
  });

  test('must be there in every round', () => {
    expect(() => medianFigures([[size(240)], [growth(1)]])).toThrow('size at rest');
  });
});

describe('growth', () => {
  test('is the mean of the later days over that of the earlier ones', () => {
    expect(growthOf([9, 2, 4, 9, 6, 6], [1, 3], [4, 6])).toBe(2);
  });

  test('needs all the days', () => {
    expect(() => growthOf([1, 1, 1], [0, 1], [2, 4])).toThrow('expected 4 days, got 3');
  });
});

describe('the report', () => {
  test('says of a figure what is wanted and whether it is met', () => {
    expect(describeFigure(size(253.4))).toBe('size at rest: 253 KiB; wanted 256 KiB at the most: met');
    expect(describeFigure(growth(1.234))).toBe('growth: 1.23; wanted 1.10 at the most: NOT MET');
  });

  test('gives seconds with two decimals, messages without', () => {
    const round = { bare: { value: 0.5 }, ours: { value: 2 }, ratio: 4 };
    expect(describeRound('watch', 's', 1, round)).toBe(
      '  watch, round 1: ratio 4.00, ours 2.00 s, bare 0.50 s',
    );
    const fast = { bare: { value: 20_000.4 }, ours: { value: 10_000, note: 'a note' }, ratio: 0.5 };
    expect(describeRound('live', 'messages/s', 2, fast)).toBe(
      '  live, round 2: ratio 0.50, ours 10000 messages/s (a note), bare 20000 messages/s',
    );
  });

  test('puts ratio and spread first, then the figures, then what was compared', () => {
    const comparison: Comparison = {
      ...{ name: 'watch', what: 'a season', bareIs: 'a filter', unit: 's', messages: 1, rounds: [] },
      ...{ ratio: 4, spread: [3.5, 5], wanted: null, figures: [size(300)] },
    };
    expect(describeComparison(comparison).split('\n')).toEqual([
      'watch: ratio 4.00 (3.50 to 5.00)',
      '  size at rest: 300 KiB; wanted 256 KiB at the most: NOT MET',
      '  ours: a season',
      '  bare: a filter',
    ]);
    expect(describeComparison({ ...comparison, wanted: 0.5, figures: [] })).toContain(
      '; wanted 0.5 or better: met',
    );
  });
});
