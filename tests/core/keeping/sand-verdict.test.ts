import { describe, expect, test } from 'vitest';
import { SAND_CAUTIONS, SAND_WORKS, sandCautions } from '../../../services/core/keeping/sand-cautions.js';
import {
  limitsOf,
  SAND_LIMITS,
  type SandLimits,
  sandLimits,
} from '../../../services/core/keeping/sand-limits.js';
import { judgeSand } from '../../../services/core/keeping/sand-verdict.js';
import type { Sieving } from '../../../services/core/model/sand-samples.js';
import { codeOf, GOOD_SAND, sievingOf } from './some-sand.js';

const TOP = [4.75, 0] as const;

describe('verdict', () => {
  test('washed medium sand is good', () => {
    const { verdict, faults, sentence, wentworth, unified } = judgeSand(GOOD_SAND);
    expect([verdict, faults, wentworth, unified.symbols]).toEqual(['good', [], 'medium sand', ['SP']]);
    expect(sentence).toBe('Good: median 0.379 mm, fines 1 %.');
  });

  test.each<[string, Sieving, readonly string[]]>([
    ['dirty', sievingOf([TOP, [0.5, 40], [0.25, 50], [0.075, 6]], 4), ['too dirty']],
    ['fine', sievingOf([TOP, [0.25, 40], [0.125, 58], [0.075, 1]], 1), ['too fine']],
    ['coarse', sievingOf([TOP, [1, 60], [0.25, 38], [0.075, 1]], 1), ['too coarse']],
    [
      'stony',
      sievingOf(
        [
          [4.75, 6],
          [0.25, 92],
          [0.075, 1],
        ],
        1,
      ),
      ['too coarse'],
    ],
    ['fine and dirty', sievingOf([TOP, [0.25, 10], [0.125, 30], [0.075, 20]], 40), ['too dirty', 'too fine']],
    [
      'fine below every sieve',
      sievingOf(
        [
          [4.75, 10],
          [0.25, 10],
        ],
        80,
      ),
      ['too fine', 'too coarse'],
    ],
    [
      'coarse above every sieve',
      sievingOf(
        [
          [2, 60],
          [0.075, 39],
        ],
        1,
      ),
      ['too coarse'],
    ],
  ])('%s', (_, sieving, faults) => {
    const judged = judgeSand(sieving);
    expect(judged.faults).toEqual(faults);
    expect(judged.verdict).toBe(faults[0]);
    for (const fault of faults) expect(judged.sentence.toLowerCase()).toContain(fault);
  });

  test('is not known where a fault may hide beyond the sieves', () => {
    const judged = judgeSand(sievingOf([TOP, [0.5, 40], [0.15, 55]], 5));
    expect(judged.verdict).toBe('unknown');
    expect(judged.sentence).toBe('Not known whether too dirty (fines between 0 and 5 %, at most 3 %).');
  });

  test('is known where what fell through cannot be too much', () => {
    expect(judgeSand(sievingOf([TOP, [0.5, 40], [0.15, 58]], 2)).verdict).toBe('good');
  });

  test('each limit itself is good', () => {
    const atFines = sievingOf([TOP, [0.5, 40], [0.25, 50], [0.075, 7]], 3);
    expect(judgeSand(atFines).verdict).toBe('good');
    const atMedian = sievingOf([TOP, [0.25, 50], [0.075, 49]], 1);
    expect(judgeSand(atMedian).verdict).toBe('good');
  });

  test('each check has measure, limit, reason and source', () => {
    for (const { measure, limit, reason } of judgeSand(GOOD_SAND).checks) {
      expect(measure).toMatch(/\d/);
      expect(limit.source).toMatch(/^judgement/);
      expect(reason.length).toBeGreaterThan(20);
    }
  });

  test('goes by limits that were set, and says that they were', () => {
    const limits = sandLimits({ sand_fines_most_percent: 0.5 });
    const judged = judgeSand(GOOD_SAND, limits);
    expect(judged.verdict).toBe('too dirty');
    expect(judged.checks[0]?.limit.source).toBe('set here; the default is 3');
  });
});

describe('limits', () => {
  test('each default is within its range and has a source that says what it is', () => {
    for (const { default: usual, low, high, source } of Object.values(SAND_LIMITS)) {
      expect(usual >= low && usual <= high).toBe(true);
      expect(source).toMatch(/^(judgement|from memory|published|common practice, no source)/);
    }
  });

  test('are frozen', () => {
    expect(Object.isFrozen(sandLimits())).toBe(true);
  });

  test.each<[string, Partial<SandLimits>]>([
    ['outside its range', { sand_fines_most_percent: 13 }],
    ['no number', { sand_warm_above_C: Number.NaN }],
    ['medians that cross', { sand_median_least_mm: 1.5 }],
    ['dampness that crosses', { sand_damp_from_percent: 3 }],
    ['dry enough that is damp', { sand_dry_enough_percent: 1.5 }],
  ])('%s is refused', (_, overrides) => {
    expect(codeOf(() => sandLimits(overrides))).toBe('OUT_OF_DOMAIN');
  });

  test('a table of its own is taken', () => {
    const table = { a: { unit: 'mm', default: 1, low: 0, high: 2, source: 'judgement', meaning: 'made up' } };
    expect(limitsOf(table, {})).toEqual({ a: 1 });
    expect(codeOf(() => limitsOf(table, { a: 3 }))).toBe('OUT_OF_DOMAIN');
  });
});

describe('cautions', () => {
  test('each is one or two sentences, and is shown with some work', () => {
    const shown = new Set(SAND_WORKS.flatMap(sandCautions));
    expect([...shown].sort()).toEqual(Object.values(SAND_CAUTIONS).sort());
    for (const text of shown) expect(text.match(/[.](?= |$)/g)?.length).toBeLessThanOrEqual(2);
  });

  test('dust wants a mask, a pan is hot, a trench caves in', () => {
    expect(sandCautions('sieving').join(' ')).toContain('mask');
    expect(sandCautions('drying in a pan').join(' ')).toMatch(/fire.*hot.*smell/s);
    expect(sandCautions('filling a pit')[0]).toContain('cave in');
    expect(sandCautions('filling a box').join(' ')).not.toContain('cave in');
  });
});
