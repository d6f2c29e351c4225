import { describe, expect, test } from 'vitest';
import { ruleTotals } from '../../../services/commands/evaluation/rule-totals.js';
import { scoreSeason } from '../../../services/commands/evaluation/score.js';
import {
  heading,
  LEGEND,
  RULES_LEGEND,
  row,
  ruleRow,
  summaryLines,
} from '../../../services/commands/evaluation/table.js';
import { totalsOf } from '../../../services/commands/evaluation/totals.js';
import { at, clear, fault, ROT, raise, seasonWith } from './a-season.js';

describe('totals', () => {
  const season = seasonWith([ROT], { warmFrom: 33 });
  const found = scoreSeason(season, [raise(10), clear(12), raise(34, { place: at(62) })]);
  const missed = scoreSeason(season, []);

  test('are medians of what was found, and rates in 100 sound bed-months', () => {
    expect(totalsOf([found, missed])).toMatchObject({
      ...{ seasons: 2, rots: 2, found: 1, fromOnset_days: 4, beforeHand_days: 8, soundMonths: 2 },
      ...{ falseUnpack: 1, falseUnpack_per_100_months: 50, error_cm: 12, covered: 1 },
    });
  });

  test('tell near sources from far ones; hours leave out what stands apart', () => {
    const far = { ...ROT, nearest: { probe: 'p01', distance_cm: 40 } };
    const weak = { ...ROT, grown_W: 1.4 };
    const apart = { ...season, apart: true };
    const { near, far: group } = totalsOf([
      found,
      scoreSeason(apart, [raise(60)]),
      scoreSeason({ ...season, truth: [far, weak] }, [raise(35)]),
    ]);
    expect(near).toMatchObject({ rots: 2, found: 2 });
    expect(near.slowest_h).toBeCloseTo(23, 6);
    expect(group).toMatchObject({ rots: 1, found: 1 });
  });

  test('leave places out where a bed has less than four probes', () => {
    expect(totalsOf([{ ...found, probes: 3 }])).toMatchObject({ placed: 0, error_cm: null, covered: null });
  });

  test('of a radius that is too small: not covered', () => {
    const small = scoreSeason(season, [raise(34, { place: at(62, 11) })]);
    expect(totalsOf([small, found]).covered).toBe(0.5);
  });

  test('of nothing at all are told without a number', () => {
    expect(totalsOf([])).toMatchObject({ found: 0, fromOnset_days: null, falseUnpack_per_100_months: 0 });
  });
});

describe('the table', () => {
  test('is plain ASCII, at most a hundred characters wide', () => {
    const full = scoreSeason(
      seasonWith([ROT, fault('drift', 'p02', 10, 40)], { warmFrom: 33, wetFrom: 20 }),
      [raise(34, { place: at(62) })],
    );
    const totals = totalsOf(Array.from({ length: 40 }, () => full));
    const rules = ruleTotals([]);
    const lines = [
      ...[...LEGEND, heading(), row('a scenario with a name that is far too long', totals)],
      ...[...RULES_LEGEND, ...rules.map(ruleRow)],
    ];
    for (const line of [...lines, ...summaryLines(totals)]) expect(line).toMatch(/^[ -~]{1,100}$/);
  });

  test('says that a wet front was never told', () => {
    const totals = totalsOf([scoreSeason(seasonWith([], { wetFrom: 20 }), [])]);
    expect(row('x', totals)).toContain('never');
  });
});
