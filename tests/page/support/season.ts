/** The season of these tests: invented. */
import { siteOf } from '../../../simulator/index.js';
import { scenarioSchema } from '../../../simulator/scenario.js';
import { unfilledPit } from './unfilled.js';

/** Where it is kept between preparing and the tests. */
export const SEASON = new URL('../../../.build/page-season', import.meta.url).pathname;

export const SEASON_days = 42;

/** A pit with rot from day 36, told and not yet opened; a sound box. */
export const PAGE_SCENARIO = scenarioSchema.parse({
  name: 'season of the page',
  site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
  days: SEASON_days,
  everyMinutes: 20,
  deepGround_C: 21,
  shade: ['p09'],
  weather: { means: [[0, 19]], swing_C: 11, dewPoint_C: 9 },
  beds: [
    {
      id: 'pit-a',
      name: 'Pit A',
      kind: 'stepped-pit',
      steps: [
        { length: 150, width: 100, height: 25 },
        { length: 150, width: 60, height: 25 },
      ],
      roots: { count: 400, mass_kg: 110 },
      probes: [
        { id: 'p01', x: 75, y: 40, depth: 30 },
        { id: 'p02', x: 30, y: 50, depth: 30 },
        { id: 'p03', x: 120, y: 50, depth: 35 },
        { id: 'p04', x: 75, y: 65, depth: 15 },
      ],
      rots: [{ startDay: 36, x: 83, y: 47, depth: 32, grown_W: 5, growth_days: 3 }],
    },
    {
      id: 'box-b',
      name: 'Box B in the hut',
      kind: 'box',
      steps: [{ length: 100, width: 50, height: 75 }],
      roots: { count: 250, mass_kg: 70 },
      probes: [
        { id: 'p11', x: 30, y: 25, depth: 25 },
        { id: 'p12', x: 70, y: 25, depth: 25 },
        { id: 'p13', x: 50, y: 25, depth: 50 },
      ],
    },
  ],
  faults: { lost: 0, outageEvery_days: 0 },
});

interface Site {
  readonly beds: readonly object[];
  readonly probes: readonly object[];
}

/** The site description: the beds of the scenario, a pit that is not filled yet, and people. */
export function siteOfSeason(from: number, endsAt: number) {
  const site = siteOf(PAGE_SCENARIO, from) as Site;
  const { bed, probes } = unfilledPit(endsAt);
  return { ...site, beds: [...site.beds, bed], probes: [...site.probes, ...probes], ...peopleOf() };
}

/** Who keeps its beds. Nobody is reached: these tests send nothing. */
const peopleOf = () => ({
  people: [
    { id: 'keeper-1', name: 'Amina', language: 'en', reach: [] },
    { id: 'keeper-2', name: 'Joseph', language: 'en', reach: [] },
  ],
  groups: [
    { id: 'growers', name: 'Growers of the ridge', lead: 'keeper-1', members: ['keeper-1', 'keeper-2'] },
  ],
});
