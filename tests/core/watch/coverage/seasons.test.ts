import { describe, expect, test } from 'vitest';
import { seasonsOf } from '../../../../services/commands/evaluation/season.js';
import { watchHours } from '../../../../services/commands/evaluation/watched-season.js';
import { DAY_ms } from '../../../../services/core/model/time.js';
import type { SavedWatching } from '../../../../services/core/watch/bed-watching.js';
import { fromText } from '../../../../services/core/watch/checkpoint-text.js';
import { coverageOf, type PlaceChance } from '../../../../services/core/watch/coverage/index.js';
import { SURFACE_C } from '../../../../services/core/watch/coverage/learned.js';
import { SETTLED } from '../../../../services/core/watch/coverage/sight.js';
import { sandWatch } from '../../../../services/core/watch/sand-watch.js';
import { type Scenario, type ScenarioInput, scenarioSchema } from '../../../../simulator/scenario.js';
import { QUESTION } from './a-bed.js';

const BED = {
  ...{ id: 'box-d', name: 'Box D', kind: 'box' as const },
  steps: [{ length: 100, width: 50, height: 75 }],
  roots: { count: 250, mass_kg: 70 },
  probes: [
    { id: 'p31', x: 30, y: 25, depth: 25 },
    { id: 'p32', x: 70, y: 25, depth: 25 },
    { id: 'p33', x: 50, y: 25, depth: 50 },
    { id: 'p34', x: 25, y: 20, depth: 55 },
  ],
};
const START_day = 20;

const { places } = coverageOf(BED, BED.probes, QUESTION);

/** The same with probes at one end alone. */
const HALF = { ...BED, probes: BED.probes.filter(({ x }) => x < 40) };
const halfPlaces = coverageOf(HALF, HALF.probes, QUESTION).places;

/** Where roots lie: not at a wall, and under some sand. */
const isRooted = ({ x, y, depth }: PlaceChance): boolean =>
  x > 10 && x < 90 && y > 10 && y < 40 && depth > 10 && depth < 68;

function season(days: number, bed: ScenarioInput['beds'][number] = BED, shade = ['p91']): Scenario {
  const scenario: ScenarioInput = {
    name: 'coverage',
    site: { id: 'trial-site', name: 'Made-up site', timezone: 'Africa/Lusaka' },
    days,
    everyMinutes: 30,
    weather: { means: [[0, 20]], swing_C: 12, dewPoint_C: 9 },
    deepGround_C: 21,
    beds: [bed],
    shade,
    variation: 1,
    faults: {},
  };
  return scenarioSchema.parse(scenario);
}

const withRotAt = (bed: typeof BED, { x, y, depth }: PlaceChance): ScenarioInput['beds'][number] => ({
  ...bed,
  rots: [{ startDay: START_day, x, y, depth, grown_W: QUESTION.power_W, growth_days: 3.5 }],
});

/** Days from its beginning after which it was told to be unpacked; undefined where it was not. */
function toldAfter_days(bed: typeof BED, place: PlaceChance, seed: number): number | undefined {
  const scenario = season(START_day + QUESTION.days + 1, withRotAt(bed, place));
  for (const { watched, hours, startAt } of seasonsOf('coverage', scenario, seed)) {
    const { changes } = watchHours(watched, hours, sandWatch);
    const told = changes.find(
      ({ type, kind, action }) => type === 'raise' && kind === 'heating' && action === 'unpack',
    );
    return told && (told.at - startAt) / DAY_ms - START_day;
  }
  return undefined;
}

describe('a rot in a simulated season, in a bed that is unlike the nominal one', () => {
  test.each([1, 2, 3])('is told in time where it is said to be found (seed %i)', (seed) => {
    const found = places.filter((place) => isRooted(place) && place.chance >= 0.97);
    const place = found[Math.floor((found.length * seed) / 4)];
    if (!place) throw new Error('expected places that are found');
    expect(toldAfter_days(BED, place, seed)).toBeLessThan(QUESTION.days);
  });

  test.each([1, 2])('is not told in time where the bed is said to be blind (seed %i)', (seed) => {
    const blind = halfPlaces.filter((place) => isRooted(place) && place.chance < 0.05);
    const place = blind[Math.floor((blind.length * seed) / 3)];
    if (!place) throw new Error('expected places that are blind');
    expect(toldAfter_days(HALF, place, seed) ?? Number.POSITIVE_INFINITY).toBeGreaterThan(QUESTION.days);
  });
});

/** What the watch knows of a sound bed once it has learned it. */
function learnedIn(scenario: Scenario, seed: number): NonNullable<SavedWatching['heat']> {
  for (const { watched, hours } of seasonsOf('coverage', scenario, seed)) {
    const bed = sandWatch.open(watched);
    for (const hour of hours) bed.step(hour);
    const { heat } = fromText(bed.checkpoint()) as SavedWatching;
    if (heat) return heat;
  }
  throw new Error('expected a bed under watch');
}

/** Beds differ by so many deviations of the logarithm of how much their probes scatter. */
const UNLIKE = 2;

describe('a bed that has been learned', () => {
  test.each([
    ['a', SETTLED.shade, ['p91']],
    ['no', SETTLED.blind, []],
  ])('scatters about as coverage takes it to with %s shade probe', (_, settled, shade) => {
    const offs = [1, 2].map((seed) => {
      const { shares } = learnedIn(season(START_day, BED, [...shade]), seed).scatter;
      const middle = [...shares].sort((one, other) => one - other)[shares.length / 2] as number;
      return Math.log(middle / settled.scatter) / settled.unlike;
    });
    for (const off of offs) expect(Math.abs(off)).toBeLessThan(UNLIKE);
  });

  test('has days under its roof about as unsure as coverage takes them to be', () => {
    const variance = learnedIn(season(START_day), 1).expected?.surfaceVariance ?? Number.NaN;
    expect(Math.abs(Math.log(Math.sqrt(variance) / SURFACE_C))).toBeLessThan(Math.log(1.3));
  });
});
