/**
 * Heating over whole made-up seasons. The thresholds are judgement; the growth of the planted source and its share
 * at the neighbours (1/r of a point source) are closed form [C].
 */
import { describe, expect, test } from 'vitest';
import type { TimedChange } from '../../../services/core/watch/episodes.js';
import { runOver, runSeason, saidIn } from './run.js';
import { bedFor, dayOf, hoursOf, idOf, QUIET, type Season } from './season.js';

const HOT_SPELL = { fromDay: 60, days: 5, by_C: 5 } as const;
const ROT = { probe: 1, fromDay: 30, days: 15, to_C: 4 } as const;
const seeds = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

type Raise = TimedChange & { type: 'raise' };

function firstUnpack(changes: readonly TimedChange[]): Raise | undefined {
  return changes.find(
    (change): change is Raise =>
      change.type === 'raise' && change.kind === 'heating' && change.action === 'unpack',
  );
}

const delayOf = (season: Season): number => {
  const raise = firstUnpack(runSeason(season).changes);
  return raise && season.rot ? dayOf(raise.at) - season.rot.fromDay : Number.POSITIVE_INFINITY;
};

describe('a sound season with five days of +5 °C raises nothing', () => {
  const sound: Season = { ...QUIET, hotSpell: HOT_SPELL };
  test.each([
    ['with a shade probe and six probes', 20, sound],
    ['in a season that warms by 0.15 °C a day', 6, { ...sound, drift_C_per_day: 0.15 }],
    ['in a season that cools by 0.1 °C a day', 6, { ...sound, drift_C_per_day: -0.1 }],
    ['without a shade probe', 12, { ...sound, shade: false }],
    ['with two probes', 20, { ...sound, probes: 2 }],
    ['with one probe and a shade probe', 20, { ...sound, probes: 1 }],
  ] satisfies [string, number, Season][])('%s, %i seeds', (_, count, season) => {
    const cried = seeds(count).flatMap((seed) => saidIn(runSeason({ ...season, seed })));
    expect(cried).toEqual([]);
  });

  test('one probe without a shade probe never asks for unpacking, and seldom for a look', () => {
    const cried = seeds(20).flatMap((seed) =>
      saidIn(runSeason({ ...sound, probes: 1, shade: false, seed })).filter((said) =>
        said.startsWith('raise'),
      ),
    );
    expect(cried.filter((said) => said.includes('unpack'))).toEqual([]);
    expect(cried.length).toBeLessThanOrEqual(2);
  });
});

describe('rot that warms its probe by 4 °C in 15 days asks for unpacking', () => {
  test('within 12 days of its start for every seed, and within 10 for two in three', () => {
    const delays = seeds(12).map((seed) => delayOf({ ...QUIET, days: 60, rot: ROT, seed }));
    expect(Math.max(...delays)).toBeLessThanOrEqual(12);
    expect(Math.min(...delays)).toBeGreaterThan(2);
    expect(delays.filter((delay) => delay <= 10).length).toBeGreaterThanOrEqual(8);
  });

  test.each([
    ['without a shade probe', { shade: false }, 15],
    ['with two probes', { probes: 2 }, 12],
    ['in a season that cools', { drift_C_per_day: -0.1 }, 12],
  ] satisfies [string, Partial<Season>, number][])('%s', (_, part, within_days) => {
    for (const seed of seeds(5))
      expect(delayOf({ ...QUIET, days: 60, rot: ROT, seed, ...part })).toBeLessThanOrEqual(within_days);
  });

  test('the hot probe is named, with its place and what it rests on', () => {
    const raise = firstUnpack(runSeason({ ...QUIET, days: 60, rot: ROT }).changes);
    expect(raise).toMatchObject({
      priority: 'high',
      place: { x: 75, y: 50, depth: 35, radius: 25 },
      evidence: { probe: idOf(1), threshold_C: 2, basis: 'shade probe and neighbours' },
    });
    expect(raise?.evidence['excess_C']).toBeGreaterThanOrEqual(1);
    expect(raise?.evidence['rate_C_per_day']).toBeGreaterThan(0.1);
  });

  test('a check comes before, and ends in the hour in which unpacking is asked for', () => {
    const said = saidIn(runSeason({ ...QUIET, days: 60, rot: ROT }));
    expect(said.map((line) => line.split(' day ')[0])).toEqual([
      'raise heating/check',
      'clear heating/check',
      'raise heating/unpack',
    ]);
    expect(said[1]?.split(' day ')[1]).toBe(said[2]?.split(' day ')[1]);
  });

  test('it is raised once and lasts, though the season goes on for two months', () => {
    const raised = saidIn(runSeason({ ...QUIET, days: 110, rot: ROT })).filter((said) =>
      said.includes('unpack'),
    );
    expect(raised).toHaveLength(1);
  });

  test('one probe with a shade probe at least asks for a look', () => {
    const season = { ...QUIET, days: 60, probes: 1, rot: { ...ROT, probe: 0 } };
    expect(saidIn(runSeason(season))[0]).toMatch(/^raise heating\/check/);
  });

  test('a bed without a shade probe says so in the evidence', () => {
    const raise = firstUnpack(runSeason({ ...QUIET, days: 60, shade: false, rot: ROT }).changes);
    expect(raise?.evidence['basis']).toMatch(/no shade probe/);
  });

  test('rot in the whole bed asks for a look at least, though the neighbours all have it', () => {
    const hours = hoursOf({ ...QUIET, days: 70 }).map((hour, index) => {
      const warmth_C = Math.min(8, Math.max(0, (index / 24 - 30) * 0.5));
      const probes = new Map(
        [...hour.probes].map(([id, { temperature, ...rest }]) => [
          id,
          {
            ...rest,
            ...(temperature && { temperature: { ...temperature, mean: temperature.mean + warmth_C } }),
          },
        ]),
      );
      return { ...hour, probes };
    });
    const said = saidIn(runOver(hours, bedFor(QUIET)));
    expect(said[0]).toMatch(/^raise heating\/check/);
  });
});

describe('missing data', () => {
  test('probes that drop out for days raise nothing', () => {
    const silent = (probe: number, day: number): boolean =>
      (probe === 1 && day > 40 && day < 48) ||
      (probe === 2 && day > 44 && day < 60) ||
      (probe !== 0 && day > 80 && day < 83) ||
      Math.floor(day * 24) % 9 === probe;
    for (const seed of seeds(5)) expect(saidIn(runSeason({ ...QUIET, seed, silent }))).toEqual([]);
  });

  test('a shade probe that is silent for two weeks raises nothing', () => {
    const shadeSilent = (day: number): boolean => day > 50 && day < 64;
    for (const seed of seeds(5)) expect(saidIn(runSeason({ ...QUIET, seed, shadeSilent }))).toEqual([]);
  });

  test('silence holds what is raised', () => {
    const silent = (_: number, day: number): boolean => day > 46;
    const said = saidIn(runSeason({ ...QUIET, days: 90, rot: ROT, silent }));
    expect(said.at(-1)).toMatch(/^raise heating\/unpack/);
  });

  test('an hour of a probe that is no number counts as missing, and spoils no other', () => {
    const hours = hoursOf({ ...QUIET, days: 20 }).map((hour, index) => {
      const spoilt = { count: 1, mean: Number.NaN, min: Number.NaN, max: Number.NaN };
      const probes = new Map(hour.probes);
      if (index % 10 === 0) probes.set('p01', { temperature: spoilt, humidity: spoilt });
      return { ...hour, probes };
    });
    const { judgements } = runOver(hours, bedFor(QUIET));
    const excesses = judgements.flatMap((judgement) =>
      [...judgement.values()].map(({ excess_C }) => excess_C),
    );
    expect(excesses.length).toBeGreaterThan(1000);
    expect(excesses.filter((excess_C) => !Number.isFinite(excess_C))).toEqual([]);
  });

  test('a shade that is no number counts as missing', () => {
    const hours = hoursOf({ ...QUIET, days: 30 }).map((hour) => ({
      ...hour,
      shade: { temperature: { count: 1, mean: Number.NaN, min: Number.NaN, max: Number.NaN } },
    }));
    const { judgements, watch } = runOver(hours, bedFor(QUIET));
    expect([...(judgements.at(-1)?.values() ?? [])].every(({ excess_C }) => Number.isFinite(excess_C))).toBe(
      true,
    );
    expect(watch.standing().basis).toMatch(/no shade probe/);
  });
});

describe('judgement', () => {
  test('is absent while the bed is being learned: 3 days to settle and 5 to learn', () => {
    const { judgements } = runSeason({ ...QUIET, days: 12 });
    const first = judgements.findIndex((judgement) => judgement.size > 0);
    expect(first / 24).toBe(8);
    expect(judgements.at(-1)?.size).toBe(6);
  });

  test('an excess is the probe less what is expected; the band is 0.3 °C at least', () => {
    const season = { ...QUIET, days: 40 };
    const hours = hoursOf(season);
    const { judgements } = runOver(hours, bedFor(season));
    const last_C = hours.slice(-24).map(({ probes }) => probes.get('p01')?.temperature?.mean ?? Number.NaN);
    const mean_C = last_C.reduce((sum, value) => sum + value, 0) / 24;
    const { expected_C, band_C, excess_C } = judgements.at(-1)?.get('p01') ?? {};
    expect((expected_C ?? Number.NaN) + (excess_C ?? Number.NaN)).toBeCloseTo(mean_C, 3);
    expect(band_C).toBeGreaterThanOrEqual(0.3);
  });

  test('the standing tells that the bed is learned, and later what is gone by', () => {
    expect(runSeason({ ...QUIET, days: 5 }).watch.standing()).toMatchObject({ learning: true });
    expect(runSeason({ ...QUIET, days: 20 }).watch.standing()).toEqual({
      learning: false,
      basis: 'shade probe and neighbours',
    });
    expect(runSeason({ ...QUIET, days: 20, shade: false, probes: 1 }).watch.standing().basis).toMatch(
      /own history.*no shade probe/,
    );
  });

  test('thresholds of the bed are those that are used', () => {
    const season = { ...QUIET, days: 60, rot: ROT };
    const strict = runOver(
      hoursOf(season),
      bedFor(season, { heating_unpack_C: 6, heating_rate_C_per_day: 5 }),
    );
    expect(firstUnpack(strict.changes)).toBeUndefined();
    const early = runOver(hoursOf(season), bedFor(season, { heating_unpack_C: 1.2 }));
    expect(firstUnpack(early.changes)?.evidence['threshold_C']).toBe(1.2);
  });
});
