import { describe, expect, test } from 'vitest';
import { handDay } from '../../../services/commands/evaluation/hand.js';
import { type RuleTotal, ruleTotals } from '../../../services/commands/evaluation/rule-totals.js';
import { cries, type Rule, ruleValues } from '../../../services/commands/evaluation/rules.js';
import { scoreSeason } from '../../../services/commands/evaluation/score.js';
import { HOUR_ms } from '../../../services/core/model/time.js';
import type { BedHour, Sample } from '../../../services/core/watch/watch.js';
import { DAYS, ROT, seasonWith } from './a-season.js';

const SERIES_days = 40;
/** The season as all probes see it, °C: it warms by half a degree a day. */
const season_C = (day: number): number => 20 + 0.5 * day;

/** One reading an hour, at its half. */
function hoursOf(probes: Readonly<Record<string, (day: number) => number>>, shade_C = 18): BedHour[] {
  return Array.from({ length: SERIES_days * 24 }, (_, index): BedHour => {
    const hour = index * HOUR_ms;
    const sample = (temperature: number): Sample[] => [{ at: hour + HOUR_ms / 2, temperature }];
    const day = Math.floor(index / 24);
    return {
      ...{ hour, inspections: [], shade: new Map([['p09', sample(shade_C)]]) },
      probes: new Map(Object.entries(probes).map(([id, of]) => [id, sample(of(day))])),
    };
  });
}

const rotten = (day: number): number => season_C(day) + (day >= 30 ? 3 : 0);
const valuesOf = (rule: Rule, probes: Parameters<typeof hoursOf>[0]) =>
  ruleValues({ hours: hoursOf(probes) })[rule];

describe('what rules hold against their limits', () => {
  const probes = { p01: rotten, p02: season_C, p03: season_C };

  test.each([
    ['fixed line', 38],
    ['above shade', 20],
    ['rise in three days', 4.5],
    ['own level, neighbours', 3],
  ] as const)('%s on the day of a step of 3 degrees: %f', (rule, value) => {
    expect(valuesOf(rule, probes)[30]).toBeCloseTo(value, 10);
  });

  test('the rule that learns does not see the season, and needs a neighbour and a week', () => {
    const values = valuesOf('own level, neighbours', probes);
    expect(values[25]).toBeCloseTo(0, 10);
    expect(values[9]).toBeUndefined();
    expect(valuesOf('own level, neighbours', { p01: rotten })[30]).toBeUndefined();
  });

  test('nothing is said while the sand settles, and codes of sensors are no temperatures', () => {
    expect(valuesOf('fixed line', probes)[4]).toBeUndefined();
    expect(valuesOf('fixed line', { ...probes, p04: () => 85 })[30]).toBeCloseTo(38, 10);
  });

  test('hours weigh the same, however many readings they have', () => {
    const hours = hoursOf({ p01: () => 20 });
    const [first] = hours.slice(240);
    const many = Array.from({ length: 60 }, (_, at) => ({ at: (first?.hour ?? 0) + at, temperature: 44 }));
    const busy = hours.map((hour) => (hour === first ? { ...hour, probes: new Map([['p01', many]]) } : hour));
    expect(ruleValues({ hours: busy })['fixed line'][10]).toBeCloseTo(21, 10);
  });
});

test('rules cry when they pass their limit, and not again until they have come down', () => {
  expect(cries([undefined, 1, 3, 3, 1, 3], 2)).toEqual([3, 6]);
});

describe('the two-weekly hand', () => {
  const strong = { ...ROT, grown_W: 50, growth_days: 1 };

  test.each([
    [1, 14],
    [11.9, 14],
    [12, 28],
    [12.5, 28],
  ])('a strong rot of day %f is found on day %i', (startDay, day) => {
    expect(handDay({ ...strong, startDay }, DAYS)).toBe(day);
  });

  test('a slow one only when it gives off more than a watt', () => {
    // 3 W (1 - exp(-(t/10)^2)) passes 1 W after 10 sqrt(ln 1.5) = 6.4 days: too late for day 14.
    expect(handDay({ ...ROT, startDay: 8, growth_days: 10 }, DAYS)).toBe(28);
    expect(handDay({ ...ROT, startDay: 7, growth_days: 10 }, DAYS)).toBe(14);
  });

  test('a weak one never, nor one that is out or whose season is over by then', () => {
    expect(handDay({ ...ROT, grown_W: 0.9 }, DAYS)).toBeNull();
    expect(handDay({ ...strong, startDay: 30, endDay: 41 }, DAYS)).toBeNull();
    expect(handDay({ ...strong, startDay: 30 }, 41)).toBeNull();
  });
});

describe('the limit that serves a rule best', () => {
  const days = (of: (day: number) => number) => Array.from({ length: DAYS }, (_, day) => of(day));
  const rules = (line: number[]) => ({
    ...{ 'fixed line': line, 'above shade': days(() => 0), 'rise in three days': days(() => 0) },
    'own level, neighbours': days(() => 0),
  });
  const best = (line: number[], truth = seasonWith([ROT])): RuleTotal | undefined =>
    ruleTotals([{ score: scoreSeason(truth, []), rules: rules(line) }])[0];

  test('is above what would make it cry falsely', () => {
    const warm = days((day) => (day >= 34 && day < 44 ? 6 : day >= 10 && day < 12 ? 4 : 2));
    expect(best(warm)).toMatchObject({ found: 1, false_per_100_months: 0, fromOnset_days: 5, limit_C: 4 });
  });

  test('is the sooner of two that find as much', () => {
    const rising = days((day) => (day >= 30 ? Math.min(6, 2 + (day - 29) / 2) : 2));
    expect(best(rising)).toMatchObject({ limit_C: 2, fromOnset_days: 1 });
  });

  test('counts a cry after the rot was taken out as false', () => {
    const again = days((day) => ((day >= 32 && day < 35) || (day >= 60 && day < 62) ? 6 : 2));
    const before = seasonWith([{ ...ROT, endDay: 40 }]);
    expect(best(again, before)?.found).toBe(0);
    expect(best(again)?.found).toBe(1);
  });
});
