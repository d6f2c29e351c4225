import { describe, expect, test } from 'vitest';
import { criteriaOf } from '../../../services/commands/evaluation/criteria.js';
import { criteriaLines } from '../../../services/commands/evaluation/criteria-table.js';
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
      ...{ falseUnpack: 1, falseUnpack_per_100_months: 50 },
      place: { counted: { first: { error_cm: 12, covered: 1 } } },
    });
  });

  test('tell near sources from far ones, and leave out what stands apart beside all', () => {
    const far = { ...ROT, nearest: { probe: 'p01', distance_cm: 40 } };
    const weak = { ...ROT, grown_W: 1.4 };
    const apart = { ...season, apart: true };
    const { near, far: group } = totalsOf([
      found,
      scoreSeason(apart, []),
      scoreSeason(apart, [raise(60)]),
      scoreSeason({ ...season, truth: [far, weak] }, [raise(35)]),
    ]);
    expect(near.counted).toMatchObject({ rots: 1, found: 1 });
    expect(near.counted.slowest_h).toBeCloseTo(23, 6);
    expect(near.all).toMatchObject({ rots: 3, found: 2 });
    expect(near.all.slowest_h).toBeCloseTo(647, 6);
    expect(group.counted).toMatchObject({ rots: 1, found: 1 });
  });

  test('count places of beds with four probes or more, all beds beside', () => {
    const { place } = totalsOf([
      { ...found, probes: 4 },
      { ...found, probes: 3 },
    ]);
    expect(place).toMatchObject({ counted: { alarms: 1 }, all: { alarms: 2 } });
    expect(totalsOf([{ ...found, probes: 3 }]).place.counted).toMatchObject({
      ...{ alarms: 0, first: { error_cm: null, covered: null } },
    });
  });

  test('of a radius that is too small: not covered', () => {
    const small = scoreSeason(season, [raise(34, { place: at(62, 11) })]);
    expect(totalsOf([small, found]).place.counted.first.covered).toBe(0.5);
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
    for (const line of [...lines, ...summaryLines(totals), ...criteriaLines(criteriaOf(totals))])
      expect(line).toMatch(/^[ -~]{1,100}$/);
  });

  test('says that a wet front was never told', () => {
    const totals = totalsOf([scoreSeason(seasonWith([], { wetFrom: 20 }), [])]);
    expect(row('x', totals)).toContain('never');
  });
});
