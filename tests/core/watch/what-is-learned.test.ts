/** What enters the baselines and what does not, read from the watch's own state. */
import { describe, expect, test } from 'vitest';
import { thresholdsInForce } from '../../../services/core/model/threshold.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import type { Excess } from '../../../services/core/watch/excess.js';
import { firstWatch } from '../../../services/core/watch/first-watch.js';
import { isHeating, takeExcess } from '../../../services/core/watch/heating.js';
import { fromCheckpoint, newProbe, type ProbeState } from '../../../services/core/watch/state.js';
import type { WatchedBed } from '../../../services/core/watch/watch.js';
import { runOver } from './run.js';
import { bedFor, hoursOf, QUIET, type Season, START } from './season.js';

const FIRST_DAY = START / DAY_ms;
const ROT = { probe: 1, fromDay: 20, days: 10, to_C: 5 } as const;

function probeAfter(season: Season, id: string, bed: WatchedBed = bedFor(season)): ProbeState {
  const { watch } = runOver(hoursOf(season), bed);
  const probe = fromCheckpoint(watch.checkpoint(), 'pit-a').probes.get(id);
  if (!probe) throw new Error(`expected a state of ${id}`);
  return probe;
}
const learnedDays = ({ days }: ProbeState): number[] => days.map(([day]) => day - FIRST_DAY);

/** The second probe stands elsewhere from a time on. */
function movedAt(day: number): WatchedBed {
  const bed = bedFor(QUIET);
  const [first] = bed.placements.get('p02') ?? [];
  if (!first) throw new Error('expected probe p02');
  const moved = { ...first, x: 60, from: START + day * DAY_ms };
  return { ...bed, placements: new Map([...bed.placements, ['p02', [first, moved]]]) };
}

describe('days that are learned', () => {
  test('begin when the sand has settled for three days', () => {
    expect(learnedDays(probeAfter({ ...QUIET, days: 10 }, 'p01'))[0]).toBe(3);
  });
  test('end while a probe is heating, and go on at the others', () => {
    const season = { ...QUIET, days: 60, rot: ROT };
    expect(learnedDays(probeAfter(season, 'p02')).at(-1)).toBeLessThan(28);
    expect(learnedDays(probeAfter(season, 'p01')).at(-1)).toBe(59);
  });
  test('leave out the day on which the bed was opened and the held hours after', () => {
    const inspections = [{ day: 15.5, opened: true, repacked: false }];
    const days = learnedDays(probeAfter({ ...QUIET, days: 25, inspections }, 'p01'));
    expect(days).toContain(14);
    expect(days).not.toContain(15);
    expect(days).not.toContain(16);
    expect(days).toContain(17);
  });
  test('leave out a day with less than 18 hours of data', () => {
    const silent = (_: number, day: number): boolean => day >= 15 && day < 15.3;
    const days = learnedDays(probeAfter({ ...QUIET, days: 20, silent }, 'p01'));
    expect(days).toEqual(expect.arrayContaining([14, 16]));
    expect(days).not.toContain(15);
  });
});

describe('baselines', () => {
  test('stay as they are while a probe is heating', () => {
    const early = probeAfter({ ...QUIET, days: 40, rot: ROT }, 'p02').baseline;
    const late = probeAfter({ ...QUIET, days: 60, rot: ROT }, 'p02').baseline;
    expect(late).toEqual(early);
  });
  test('forget a neighbour that was moved, in the hour of its moving', () => {
    const hours = hoursOf({ ...QUIET, days: 41 }).slice(0, 40 * 24 + 4);
    const { watch } = runOver(hours, movedAt(40 + 2 / 24));
    const peers = fromCheckpoint(watch.checkpoint(), 'pit-a').probes.get('p01')?.baseline?.peers ?? [];
    expect(peers.map(([id]) => id)).toEqual(['p03', 'p04', 'p05', 'p06']);
  });
  test('the bed stands on the weakest of what its probes stand on', () => {
    const shadeSilent = (day: number): boolean => day > 20 && day < 34;
    const hours = hoursOf({ ...QUIET, days: 38, shadeSilent });
    const { watch } = runOver(hours, movedAt(22));
    const { probes } = fromCheckpoint(watch.checkpoint(), 'pit-a');
    expect(probes.get('p01')?.basis).toBe('shade and neighbours');
    expect(probes.get('p02')?.basis).toBe('neighbours');
    expect(watch.standing().basis).toMatch(/^neighbours/);
  });
  test('the basis in words is for people: it names what is missing', () => {
    const season = { ...QUIET, days: 12, probes: 2, shade: false };
    const { watch } = runOver(hoursOf(season), bedFor(season));
    expect(watch.standing().basis).toMatch(/one neighbour and its own history, no shade probe/);
  });
});

describe('the excess of a probe, hour by hour', () => {
  const thresholds = thresholdsInForce();
  const excess = (excess_C: number, basis: Excess['basis'] = 'shade and neighbours'): Excess => ({
    ...{ excess_C, basis },
    band_C: 0.3,
  });
  const taken = (hours: readonly (Excess | undefined)[]): ProbeState => {
    const probe = newProbe('75 50 35 0');
    for (const hour of hours) takeExcess(probe, hour, thresholds);
    return probe;
  };
  const rising = (hours: number, basis?: Excess['basis']): Excess[] =>
    Array.from({ length: hours }, (_, hour) => excess((0.5 * hour) / 24, basis));

  test('a rise of 0.5 °C a day asks for unpacking from 1 °C on, when it has held a day', () => {
    const atOneDegree = 2 * 24 + 1;
    expect(taken(rising(atOneDegree + 22)).heating.rise.open).toBe(false);
    expect(taken(rising(atOneDegree + 23)).heating).toMatchObject({
      rise: { open: true },
      unpack: { open: false },
      check: { open: false },
    });
  });
  test.each(['shade', 'one neighbour and own history', 'own history'] as const)(
    'a rise over %s alone asks for nothing',
    (basis) => {
      expect(taken(rising(80, basis)).heating.rise.above_h).toBe(0);
    },
  );
  test('1 °C for 48 h asks for a look, 2 °C for 6 h for unpacking', () => {
    expect(taken(Array(47).fill(excess(1))).heating.check.open).toBe(false);
    expect(taken(Array(48).fill(excess(1))).heating.check.open).toBe(true);
    expect(taken(Array(5).fill(excess(2))).heating.unpack.open).toBe(false);
    expect(taken(Array(6).fill(excess(2))).heating.unpack.open).toBe(true);
  });
  test('when unpacking is over, a look is not asked for at once', () => {
    const { heating } = taken([...Array(100).fill(excess(2.5)), ...Array(24).fill(excess(0.9))]);
    expect(heating).toMatchObject({ unpack: { open: false }, check: { open: false, above_h: 0 } });
  });
  test('unpacking lasts between half the threshold and the threshold', () => {
    expect(taken([...Array(6).fill(excess(2)), ...Array(500).fill(excess(1.1))]).heating.unpack.open).toBe(
      true,
    );
  });
  test('an excess over something else begins a new rise', () => {
    const { excesses } = taken([...rising(60), excess(1, 'neighbours')]);
    expect(excesses).toEqual([1]);
  });
  test('an excess that is developing counts as heating, over own history alone it does not', () => {
    expect(isHeating(taken([excess(1)]))).toBe(true);
    expect(isHeating(taken([excess(0.9)]))).toBe(false);
    expect(isHeating(taken([excess(5, 'own history')]))).toBe(false);
  });
});

test('a checkpoint of one watch is the same as of another over the same hours', () => {
  const hours = hoursOf({ ...QUIET, days: 15 });
  const [one, other] = [1, 2].map(() => runOver(hours, bedFor(QUIET)).watch.checkpoint());
  expect(one).toBe(other);
  expect(JSON.parse(one ?? '')).toMatchObject({
    version: firstWatch.version,
    hour: START + 15 * DAY_ms - HOUR_ms,
  });
});
