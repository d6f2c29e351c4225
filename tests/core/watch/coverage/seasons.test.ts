import { describe, expect, test } from 'vitest';
import { seasonsOf } from '../../../../services/commands/evaluation/season.js';
import { watchHours } from '../../../../services/commands/evaluation/watched-season.js';
import { DAY_ms } from '../../../../services/core/model/time.js';
import { coverageOf, type PlaceChance } from '../../../../services/core/watch/coverage/index.js';
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

/** Where roots lie: not at a wall, and under some sand. */
const isRooted = ({ x, y, depth }: PlaceChance): boolean =>
  x > 10 && x < 90 && y > 10 && y < 40 && depth > 10 && depth < 68;

function seasonWithRotAt({ x, y, depth }: PlaceChance): Scenario {
  const rot = { startDay: START_day, x, y, depth, grown_W: QUESTION.power_W, growth_days: 3.5 };
  const scenario: ScenarioInput = {
    name: 'coverage',
    site: { id: 'trial-site', name: 'Made-up site', timezone: 'Africa/Lusaka' },
    days: START_day + QUESTION.days + 1,
    everyMinutes: 30,
    weather: { means: [[0, 20]], swing_C: 12, dewPoint_C: 9 },
    deepGround_C: 21,
    beds: [{ ...BED, rots: [rot] }],
    shade: ['p91'],
    variation: 1,
    faults: {},
  };
  return scenarioSchema.parse(scenario);
}

/** Days from its beginning after which it was told to be unpacked; undefined where it was not. */
function toldAfter_days(place: PlaceChance, seed: number): number | undefined {
  for (const { watched, hours, startAt } of seasonsOf('coverage', seasonWithRotAt(place), seed)) {
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
    expect(toldAfter_days(place, seed)).toBeLessThan(QUESTION.days);
  });

  test.each([1, 2])('is not told in time where the bed is said to be blind (seed %i)', (seed) => {
    const blind = places.filter((place) => isRooted(place) && place.chance < 0.1);
    const place = blind[Math.floor((blind.length * seed) / 3)];
    if (!place) throw new Error('expected places that are blind');
    expect(toldAfter_days(place, seed) ?? Number.POSITIVE_INFINITY).toBeGreaterThan(QUESTION.days);
  });
});
