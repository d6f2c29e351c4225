/** What a scenario tells of itself: what was planted, what was written down, and the true excess. */
import { describe, expect, test } from 'vitest';
import { inspectionBodySchema } from '../../services/core/model/inspection.js';
import { DAY_ms, formatTime } from '../../services/core/model/time.js';
import { simulateDays } from '../../simulator/days.js';
import {
  dayOfExcess,
  inspectionsOf,
  loadScenario,
  simulateDaysWithTruth,
  trueExcessAt,
  truthOf,
} from '../../simulator/index.js';
import { type Scenario, scenarioSchema } from '../../simulator/scenario.js';

const FROM = Date.UTC(2026, 4, 4);
const rotPit = loadScenario('rot-pit');
const [pit] = rotPit.beds as [Scenario['beds'][number]];
const rot = { startDay: 20, x: 62, y: 52, depth: 38, grown_W: 5, growth_days: 6 };
const opening = { day: 30.5, hours: 3, told: true, repacked: true, sunWarmed_C: 5, depth: 40, moved_cm: 2 };

const planted = scenarioSchema.parse({
  ...rotPit,
  days: 60,
  beds: [
    {
      ...pit,
      rots: [rot, { ...rot, startDay: 35, x: 130, depth: 45 }],
      leak: { startDay: 40, x: 75, y: 50, litres_per_day: 2 },
      damping: { startDay: 100, litres_per_day: 1 },
      openings: [
        opening,
        { ...opening, day: 45, told: false, repacked: false },
        { ...opening, day: 50, depth: 20 },
      ],
      sandTaken: { day: 12, depth: 8 },
    },
  ],
  faults: {
    probes: [
      { kind: 'stuck', probe: 'p11', startDay: 10, days: 4 },
      { kind: 'silent', probe: 'p91', startDay: 55 },
    ],
  },
});

describe('the truth', () => {
  const truth = truthOf(planted, 1);

  test('has all that begins within the season, by kind', () => {
    expect(truth.map(({ kind, startDay }) => [kind, startDay])).toEqual([
      ['rot', 20],
      ['rot', 35],
      ['leak', 40],
      ['opening', 30.5],
      ['opening', 45],
      ['opening', 50],
      ['sand-taken', 12],
      ['fault', 10],
      ['fault', 55],
    ]);
  });

  test('tells of rot its strength, its end, and which probe is nearest how far off', () => {
    expect(truth[0]).toEqual({
      kind: 'rot',
      bed: 'pit-b',
      startDay: 20,
      place: { x: 62, y: 52, depth: 38 },
      grown_W: 5,
      growth_days: 6,
      endDay: 30.5 + 3 / 24,
      nearest: { probe: 'p12', distance_cm: expect.closeTo(Math.hypot(13, 8, 4), 9) },
    });
    expect(truth[1]).toMatchObject({ endDay: null });
  });

  test('tells whose fault it is, and until when', () => {
    expect(truth.slice(-2)).toEqual([
      { kind: 'fault', bed: 'pit-b', probe: 'p11', fault: 'stuck', startDay: 10, endDay: 14 },
      { kind: 'fault', bed: null, probe: 'p91', fault: 'silent', startDay: 55, endDay: null },
    ]);
  });

  test('measures from where probes truly are', () => {
    const [first] = truthOf({ ...planted, variation: 1 }, 1);
    if (first?.kind !== 'rot') throw new Error('expected rot');
    expect(first.nearest?.distance_cm).not.toBeCloseTo(Math.hypot(13, 8, 4), 3);
    expect(first.nearest?.distance_cm).toBeLessThan(30);
  });

  test('of a bed without probes knows no nearest', () => {
    const bare = { ...rotPit, beds: [{ ...pit, probes: [] }] };
    expect(truthOf(bare, 1)[0]).toMatchObject({ kind: 'rot', nearest: null });
  });
});

describe('inspections', () => {
  const inspections = inspectionsOf(planted, FROM);

  test('are the told openings only, with what lies as deep as was dug', () => {
    expect(
      inspections.map(({ bed, at, repacked, found }) => [bed, (at - FROM) / DAY_ms, repacked, found]),
    ).toEqual([
      ['pit-b', 30.5, true, ['rot']],
      ['pit-b', 50, true, ['damp']],
    ]);
  });

  test('rot that was taken out is not found again, nor what has hardly begun', () => {
    const found = (...openings: Scenario['beds'][number]['openings']): string[][] =>
      inspectionsOf({ ...rotPit, beds: [{ ...pit, rots: [rot], openings }] }, FROM).map((one) => [
        ...one.found,
      ]);
    expect(found(opening, { ...opening, day: 44 })).toEqual([['rot'], ['nothing']]);
    expect(found({ ...opening, repacked: false }, { ...opening, day: 44 })).toEqual([['rot'], ['rot']]);
    expect(found({ ...opening, day: 21 })).toEqual([['nothing']]);
    expect(found({ ...opening, depth: 30 })).toEqual([['nothing']]);
  });

  test('are what the service takes', () => {
    for (const { bed: _, at, ...body } of inspections)
      expect(inspectionBodySchema.parse({ ...body, at: formatTime(at) })).toEqual({ ...body, at });
  });
});

describe('the true excess', () => {
  const season: Scenario = {
    ...rotPit,
    days: 12,
    variation: 1,
    beds: [{ ...pit, rots: [{ ...rot, startDay: 4, growth_days: 2 }] }],
  };
  const hours = trueExcessAt(season, 'pit-b', 3);
  const of = (probe: string, hour: number): number =>
    hours[hour - 1]?.sands.find((sand) => sand.probe === probe)?.excess_C ?? Number.NaN;

  test('is nothing before the rot, and grows with it, most where it is nearest', () => {
    expect(hours.map(({ hour }) => hour)).toEqual(Array.from({ length: 12 * 24 }, (_, at) => at + 1));
    expect(of('p12', 4 * 24)).toBe(0);
    expect(of('p12', 8 * 24)).toBeGreaterThan(0.5);
    expect(of('p12', 12 * 24)).toBeGreaterThan(of('p12', 8 * 24));
    expect(of('p13', 12 * 24)).toBeLessThan(0.5 * of('p12', 12 * 24));
  });

  test('says when it passed a limit', () => {
    const passed = dayOfExcess(hours, 'p12', 0.5) ?? Number.NaN;
    expect(of('p12', Math.round(passed * 24))).toBeGreaterThanOrEqual(0.5);
    expect(of('p12', Math.round(passed * 24) - 1)).toBeLessThan(0.5);
    expect(dayOfExcess(hours, 'p12', 50)).toBeUndefined();
  });

  test('is what a bed without the rots from the beginning lacks, water and openings included', () => {
    const [bed] = season.beds as [Scenario['beds'][number]];
    const eventful: Scenario['beds'][number] = {
      ...bed,
      leak: { startDay: 1, x: 75, y: 50, litres_per_day: 3 },
      damping: { startDay: 1, litres_per_day: 3 },
      openings: [
        { ...opening, day: 2.1, repacked: false },
        { ...opening, day: 6, repacked: false },
      ],
      sandTaken: { day: 3, depth: 8 },
    };
    const days = 8;
    const rotten = trueExcessAt({ ...season, days, beds: [eventful] }, 'pit-b', 3);
    const sound = trueExcessAt({ ...season, days, beds: [{ ...eventful, rots: [] }] }, 'pit-b', 3);
    rotten.forEach(({ sands }, hour) => {
      for (const { probe, temperature_C, excess_C } of sands) {
        const own = sound[hour]?.sands.find((sand) => sand.probe === probe);
        expect(temperature_C - (own?.temperature_C ?? Number.NaN)).toBe(excess_C);
      }
    });
  });

  test('comes with the very readings of the season', () => {
    const short = { ...season, days: 3 };
    const withTruth = Array.from(simulateDaysWithTruth(short, 'pit-b', 3), ({ sent }) => sent);
    expect(withTruth).toEqual(Array.from(simulateDays(short, 'pit-b', 3)));
  });

  test('of a sound bed is nothing', () => {
    const sound = trueExcessAt({ ...season, days: 2, beds: [{ ...pit, rots: [] }] }, 'pit-b', 3);
    expect(sound.every(({ sands }) => sands.every(({ excess_C }) => excess_C === 0))).toBe(true);
  });

  test('of a bed that is none is refused', () => {
    expect(() => trueExcessAt(season, 'pit-z', 3)).toThrow(/scenario rot-pit: no bed "pit-z"/);
    expect(() => trueExcessAt(season, 'shade', 3)).toThrow(/no bed "shade"/);
  });
});
