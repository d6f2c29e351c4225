/** Inspections, filling, moving a probe. */
import { describe, expect, test } from 'vitest';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import { firstWatch } from '../../../services/core/watch/first-watch.js';
import type { WatchedBed } from '../../../services/core/watch/watch.js';
import { runOver, runSeason, saidIn } from './run.js';
import { bedFor, dayOf, hoursOf, QUIET, type Season, START } from './season.js';

const ROT = { probe: 1, fromDay: 20, days: 10, to_C: 5 } as const;
const wetAfter = (day: number) => (_: number, now: number) => (now >= day ? 99 : 85);
const judgedDays = (season: Season): number[] =>
  runSeason(season).judgements.flatMap(({ size }, index) => (size > 0 ? [index / 24] : []));

describe('a bed that is packed anew', () => {
  const repacked = { day: 45, opened: true, repacked: true };

  test('ends heating and damp in that hour', () => {
    const season = { ...QUIET, days: 47, rot: ROT, humidity: wetAfter(30), inspections: [repacked] };
    const said = saidIn(runSeason(season)).filter((line) => line.includes('day 45'));
    expect(said).toEqual(['clear heating/unpack day 45.0', 'clear damp/unpack day 45.0']);
  });

  test('is learned anew: no judgement for 3 days to settle, the rest of a day and 5 days to learn', () => {
    const days = judgedDays({ ...QUIET, days: 60, inspections: [repacked] });
    expect(days.filter((day) => day >= 45)[0]).toBe(53);
    expect(runSeason({ ...QUIET, days: 50, inspections: [repacked] }).watch.standing().learning).toBe(true);
  });

  test('takes what it then is for sound: warmth that stayed raises nothing', () => {
    const season = { ...QUIET, days: 75, rot: ROT, inspections: [repacked] };
    const later = saidIn(runSeason(season)).filter((line) => Number(line.split('day ')[1]) > 46);
    expect(later).toEqual([]);
  });

  test('damp that is still there is raised again, from 24 h after on', () => {
    const season = { ...QUIET, days: 60, humidity: wetAfter(30), inspections: [repacked] };
    expect(saidIn(runSeason(season)).at(-1)).toBe('raise damp/unpack day 48.0');
  });
});

describe('a bed that was only opened', () => {
  const opened = { day: 45, opened: true, repacked: false };

  test('is not judged in that hour and for 24 h after', () => {
    const days = judgedDays({ ...QUIET, days: 60, inspections: [opened] });
    expect(days.filter((day) => day >= 44.9 && day <= 46.1)).not.toContain(45);
    expect(days.filter((day) => day >= 45)[0]).toBeCloseTo(46 + 1 / 24, 6);
  });

  test('keeps what is raised', () => {
    const season = { ...QUIET, days: 60, rot: ROT, humidity: wetAfter(30), inspections: [opened] };
    expect(
      saidIn(runSeason(season)).filter((line) => line.includes('clear') && line.includes('unpack')),
    ).toEqual([]);
  });

  test('a look without opening changes nothing', () => {
    const looked = { ...opened, opened: false };
    const season = { ...QUIET, days: 60, rot: ROT };
    expect(runSeason({ ...season, inspections: [looked] }).changes).toEqual(runSeason(season).changes);
  });
});

describe('filling', () => {
  const filledAt = (bed: WatchedBed, day: number): WatchedBed => ({
    ...bed,
    bed: { ...bed.bed, filled: START + day * DAY_ms },
  });

  test('nothing is judged before it, damp neither', () => {
    const season = { ...QUIET, days: 30, humidity: wetAfter(0) };
    const { changes, judgements } = runOver(hoursOf(season), filledAt(bedFor(season), 10));
    expect(changes.map(({ at }) => dayOf(at))).toEqual([12]);
    expect(judgements.findIndex(({ size }) => size > 0) / 24).toBe(18);
  });

  test('a bed without a time of filling counts from the placement of its probes', () => {
    const bed = bedFor(QUIET);
    const { filled: _, ...unfilled } = bed.bed;
    const { judgements } = runOver(hoursOf({ ...QUIET, days: 12 }), { ...bed, bed: unfilled });
    expect(judgements.findIndex(({ size }) => size > 0) / 24).toBe(8);
  });
});

describe('a probe that is moved', () => {
  const moved = (to: { day: number; end?: number }): WatchedBed => {
    const bed = bedFor(QUIET);
    const [first] = bed.placements.get('p02') ?? [];
    if (!first) throw new Error('expected probe p02');
    const at = START + to.day * DAY_ms;
    const second = { ...first, x: 60, from: at };
    const placements = new Map(bed.placements);
    placements.set(
      'p02',
      to.end === undefined ? [first, second] : [{ ...first, to: START + to.end * DAY_ms }],
    );
    return { ...bed, placements };
  };

  test('begins without a past, and its neighbours go on', () => {
    const { judgements } = runOver(hoursOf({ ...QUIET, days: 60 }), moved({ day: 40 }));
    const judged = (id: string) =>
      judgements.flatMap((judgement, index) =>
        index >= 40 * 24 && judgement.has(id) ? [index / 24] : [],
      )[0];
    expect(judged('p02')).toBe(48);
    expect(judged('p01')).toBe(40);
  });

  test('takes what it raised with it', () => {
    const season = { ...QUIET, days: 45, rot: ROT };
    const said = saidIn(runOver(hoursOf(season), moved({ day: 40 })));
    expect(said.at(-1)).toMatch(/^clear heating\/unpack day 40\.0/);
  });

  test('a probe that is taken out raises and holds nothing', () => {
    const season = { ...QUIET, days: 45, rot: ROT };
    const { changes, judgements } = runOver(hoursOf(season), moved({ day: 0, end: 40 }));
    expect(saidIn({ changes }).at(-1)).toMatch(/^clear heating\/unpack day 40\.0/);
    expect(judgements.at(-1)?.has('p02')).toBe(false);
  });

  test('a probe that the bed does not know is left out', () => {
    const bed = bedFor({ ...QUIET, probes: 5 });
    const { judgements } = runOver(hoursOf({ ...QUIET, days: 12 }), bed);
    expect([...(judgements.at(-1)?.keys() ?? [])]).toEqual(['p01', 'p02', 'p03', 'p04', 'p05']);
  });
});

describe('hours', () => {
  const [first, second, third] = hoursOf({ ...QUIET, days: 1 });
  test.each([
    ['twice', second, second],
    ['one left out', first, third],
    ['backwards', second, first],
    ['not whole', first, second && { ...second, hour: second.hour + 60_000 }],
    ['no number', first, second && { ...second, hour: Number.NaN }],
  ])('%s are refused', (_, one, other) => {
    if (!one || !other) throw new Error('expected hours');
    const watch = firstWatch.open(bedFor(QUIET));
    watch.step(one);
    expect(() => watch.step(other)).toThrow(/hour of bed "pit-a": expected/);
  });
  test('empty ones are taken', () => {
    const empty = Array.from({ length: 400 }, (_, index) => ({
      hour: START + index * HOUR_ms,
      probes: new Map(),
      inspections: [],
    }));
    expect(runOver(empty, bedFor(QUIET)).changes).toEqual([]);
  });
});
