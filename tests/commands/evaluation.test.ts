import { describe, expect, test } from 'vitest';
import { cries, handDay } from '../../services/commands/evaluation/rules.js';
import { scoreSeason } from '../../services/commands/evaluation/score.js';
import type { EvaluatedSeason } from '../../services/commands/evaluation/season.js';
import { ruleTotals, totalsOf } from '../../services/commands/evaluation/totals.js';
import type { DayChange } from '../../services/commands/evaluation/watched-season.js';

const PLACE = { x: 50, y: 50, depth: 30 };
const ROT = {
  ...{
    kind: 'rot' as const,
    bed: 'pit-a',
    startDay: 30,
    endDay: null,
    grown_W: 3,
    growth_days: 4,
    place: PLACE,
  },
  nearest: { probe: 'p01', distance_cm: 20 },
} as const;

const season = (truth: EvaluatedSeason['truth']): EvaluatedSeason => ({
  ...{ scenario: 'made up', seed: 1, bed: 'pit-a', days: 120, startAt: 0, hours: [], truth },
  watched: {} as EvaluatedSeason['watched'],
  trueHours: Array.from({ length: 120 * 24 }, (_, index) => ({
    hour: index + 1,
    sands: [
      { probe: 'p01', temperature_C: 20, excess_C: index >= 33 * 24 ? 1 : 0, humidity_RH: 85, wet: false },
    ],
  })),
});

const unpack = (day: number, x = 50, radius = 20): DayChange => ({
  ...{ type: 'raise', kind: 'heating', action: 'unpack', subject: '', priority: 'high', evidence: {}, day },
  place: { x, y: 50, depth: 30, radius },
});

const refine = (day: number, x: number): DayChange => ({
  ...{ type: 'refine', kind: 'heating', action: 'unpack', subject: '', evidence: {}, day },
  place: { x, y: 50, depth: 30, radius: 20 },
});

describe('the score of a season', () => {
  test('of an alarm after the rot began: found, with its delay and the error of its place', () => {
    const { rots, falseUnpack } = scoreSeason(season([ROT]), [
      unpack(34, 62),
      refine(36, 54),
      refine(39, 90),
    ]);
    expect(falseUnpack).toBe(0);
    expect(rots).toMatchObject([
      { foundDay: 34, startDay: 30, error_cm: 12, laterError_cm: 4, radius_cm: 20 },
    ]);
    expect(rots[0]?.knowableDay).toBeCloseTo(33, 1);
  });

  test('of one before it: false, and the rot is not found by it', () => {
    const { rots, falseUnpack, soundMonths } = scoreSeason(season([ROT]), [unpack(20)]);
    expect(falseUnpack).toBe(1);
    expect(soundMonths).toBe(1);
    expect(rots[0]?.foundDay).toBeNull();
  });

  test('of one long after it: neither', () => {
    const { rots, falseUnpack } = scoreSeason(season([ROT]), [unpack(75)]);
    expect([rots[0]?.foundDay, falseUnpack]).toEqual([null, 0]);
  });

  test('of a fault: recognised only for its own probe and in time', () => {
    const fault = {
      kind: 'fault',
      bed: 'pit-a',
      startDay: 10,
      endDay: null,
      probe: 'p02',
      fault: 'stuck',
    } as const;
    const told = (day: number, subject: string): DayChange => ({
      ...{
        type: 'raise',
        kind: 'probe-fault',
        action: 'service',
        subject,
        priority: 'low',
        evidence: {},
        place: null,
        day,
      },
    });
    const recognised = (change: DayChange) => scoreSeason(season([fault]), [change]).faults[0]?.recognised;
    expect(recognised(told(12, 'p02'))).toBe(true);
    expect(recognised(told(12, 'p03'))).toBe(false);
    expect(recognised(told(15, 'p02'))).toBe(false);
    expect(recognised(told(9, 'p02'))).toBe(false);
  });
});

test('totals are medians and rates in 100 sound bed-months', () => {
  const found = scoreSeason(season([ROT]), [unpack(10), unpack(34)]);
  const missed = scoreSeason(season([ROT]), []);
  const totals = totalsOf([found, missed]);
  expect(totals).toMatchObject({ rots: 2, found: 1, fromOnset_days: 4, soundMonths: 2, covered: 1 });
  expect(totals.falseUnpack_per_100_months).toBe(50);
  expect(totals.fromKnowable_h).toBeCloseTo(23, 0);
});

describe('simple rules', () => {
  test('cry when they pass their limit, and not again until they have come down', () => {
    expect(cries([undefined, 1, 3, 3, 1, 3], 2)).toEqual([3, 6]);
  });

  test('the hand comes every second week, to what is two days old', () => {
    expect([handDay(1), handDay(12), handDay(12.5)]).toEqual([14, 14, 28]);
  });

  test('get the limit that finds most without crying too often', () => {
    const score = scoreSeason(season([ROT]), []);
    const days = (value: (day: number) => number) => Array.from({ length: 120 }, (_, day) => value(day));
    const none = days(() => 0);
    const warm = days((day) => (day >= 34 && day < 44 ? 6 : day >= 10 && day < 12 ? 4 : 2));
    const [line] = ruleTotals([
      { score, rules: { 'fixed line': warm, 'above shade': none, 'rise in three days': none } },
    ]);
    expect(line).toMatchObject({ found: 1, false_per_100_months: 0, fromOnset_days: 5 });
    expect(line?.limit_C).toBeGreaterThanOrEqual(4);
  });
});
