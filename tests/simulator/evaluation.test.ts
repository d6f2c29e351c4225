/** The catalogue for evaluation: its seasons are what their names say, for many seeds. */
import { describe, expect, test } from 'vitest';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import {
  EVALUATION_SCENARIOS,
  inspectionsOf,
  siteOf,
  type Truth,
  trueExcessAt,
  truthOf,
} from '../../simulator/index.js';
import { type Scenario, scenarioSchema } from '../../simulator/scenario.js';

const SEEDS = Array.from({ length: 25 }, (_, index) => index + 1);
const NAMES = Object.keys(EVALUATION_SCENARIOS);

const drawn = new Map<string, Scenario>();

/** Drawn once, for all tests. */
function seasonOf(name: string, seed: number): Scenario {
  const key = `${name} ${seed}`;
  const season = drawn.get(key) ?? draw(name, seed);
  drawn.set(key, season);
  return season;
}

function draw(name: string, seed: number): Scenario {
  const make = EVALUATION_SCENARIOS[name];
  if (!make) throw new Error(`expected a scenario, got ${name}`);
  return make(seed);
}

type Rot = Extract<Truth, { kind: 'rot' }>;
const rotsOf = (name: string): Rot[][] =>
  SEEDS.map((seed) =>
    truthOf(seasonOf(name, seed), seed).filter((truth): truth is Rot => truth.kind === 'rot'),
  );
const kindsOf = (name: string): Set<string> =>
  new Set(SEEDS.flatMap((seed) => truthOf(seasonOf(name, seed), seed).map(({ kind }) => kind)));

test('has at least 14 scenarios', () => {
  expect(NAMES.length).toBeGreaterThanOrEqual(14);
});

describe.each(NAMES)('%s', (name) => {
  const seasons = SEEDS.map((seed) => seasonOf(name, seed));

  test('is a scenario that agrees with itself and gives a site file, for every seed', () => {
    for (const season of seasons) {
      expect(scenarioSchema.parse(season)).toEqual(season);
      expect(() => checkSiteFile('site.json', siteOf(season, Date.UTC(2026, 4, 4)))).not.toThrow();
    }
  });

  test('lasts 120 to 150 days, with two to six probes a bed, from cool to hot, all unknowns drawn', () => {
    for (const { days, beds, variation, weather } of seasons) {
      expect(days).toBeGreaterThanOrEqual(120);
      expect(days).toBeLessThanOrEqual(150);
      for (const { probes } of beds) expect(probes.length).toBeGreaterThanOrEqual(2);
      for (const { probes } of beds) expect(probes.length).toBeLessThanOrEqual(6);
      expect(variation).toBe(1);
      expect(weather.swing_C).toBeGreaterThanOrEqual(8);
      expect(weather.swing_C).toBeLessThanOrEqual(16);
    }
    const starts = seasons.map(({ weather }) => weather.means[0]?.[1] ?? Number.NaN);
    expect(Math.max(...starts) - Math.min(...starts)).toBeGreaterThan(8);
  });

  test('is the same for the same seed, and another for another', () => {
    expect(draw(name, 3)).toEqual(seasons[2]);
    expect(new Set(seasons.map((season) => JSON.stringify(season))).size).toBe(SEEDS.length);
  });
});

describe('sources', () => {
  const near = [
    'source near a probe',
    'source, shade probe missing',
    'source, shade probe in the sun',
    'source, buffers come late',
    'source in hot spells',
  ];
  test.each(near)('%s: one, of 1.5 to 5 W within about 30 cm, from day 12 to 110', (name) => {
    for (const rots of rotsOf(name)) {
      expect(rots).toHaveLength(1);
      const [rot] = rots as [Rot];
      expect(rot.grown_W).toBeGreaterThanOrEqual(1.5);
      expect(rot.grown_W).toBeLessThanOrEqual(5);
      expect(rot.growth_days).toBeGreaterThanOrEqual(2);
      expect(rot.growth_days).toBeLessThanOrEqual(8);
      expect(rot.startDay).toBeGreaterThanOrEqual(12);
      expect(rot.startDay).toBeLessThanOrEqual(110);
      // Drawn within 27 cm of where the probe is written down; the probe itself is elsewhere by 2.5 cm each way.
      expect(rot.nearest?.distance_cm).toBeLessThan(36);
    }
  });

  test('the far one lies some 30 to 50 cm from every probe', () => {
    for (const [rot] of rotsOf('source far from every probe')) {
      expect(rot?.nearest?.distance_cm).toBeGreaterThan(25);
      expect(rot?.nearest?.distance_cm).toBeLessThan(55);
    }
  });

  test('the weak one has 0.8 to 1.4 W, the early one begins on days 4 to 9, two are two, apart', () => {
    for (const [rot] of rotsOf('weak source near a probe')) {
      expect(rot?.grown_W).toBeGreaterThanOrEqual(0.8);
      expect(rot?.grown_W).toBeLessThanOrEqual(1.4);
    }
    for (const [rot] of rotsOf('source while learning')) {
      expect(rot?.startDay).toBeGreaterThanOrEqual(4);
      expect(rot?.startDay).toBeLessThanOrEqual(9);
    }
    for (const [one, other, ...more] of rotsOf('two sources')) {
      if (!one || !other) throw new Error('expected two');
      const apart = Math.hypot(
        one.place.x - other.place.x,
        one.place.y - other.place.y,
        one.place.depth - other.place.depth,
      );
      expect(apart).toBeGreaterThanOrEqual(40);
      expect(more).toEqual([]);
    }
  });
});

describe('the others', () => {
  test.each<[string, string[]]>([
    ['quiet', []],
    ['hot spells', []],
    ['box in a hut, hot spells', []],
    ['shade probe in the sun', []],
    ['opened and told, sand warmed by the sun', ['opening']],
    ['opened untold, sand warmed by the sun', ['opening']],
    ['sand taken from the top', ['sand-taken']],
    ['one probe drifts', ['fault']],
    ['probes fail in other ways', ['fault']],
    ['shade probe missing', ['fault']],
    ['leak with a wet front', ['leak']],
    ['slow damping', ['damping']],
  ])('%s: holds %j and nothing else', (name, kinds) => {
    expect(kindsOf(name)).toEqual(new Set(kinds));
  });

  test('told openings are written down, untold ones are not', () => {
    const written = (name: string): number[] =>
      SEEDS.map((seed) => inspectionsOf(seasonOf(name, seed), 0).length);
    expect(Math.min(...written('opened and told, sand warmed by the sun'))).toBeGreaterThanOrEqual(2);
    expect(Math.max(...written('opened untold, sand warmed by the sun'))).toBe(0);
  });

  test('the shade probe is away, or goes away; or the sun reaches it', () => {
    for (const seed of SEEDS) {
      const missing = seasonOf('shade probe missing', seed);
      expect(missing.shade.length === 0 || missing.faults.probes.some(({ probe }) => probe === 'p91')).toBe(
        true,
      );
      expect(seasonOf('shade probe in the sun', seed).shadeSunlit_C).toBeGreaterThanOrEqual(3);
    }
  });

  test('a hut is around a box', () => {
    for (const seed of SEEDS) expect(seasonOf('box in a hut, hot spells', seed).beds[0]?.kind).toBe('box');
  });

  test('late buffers are held up about when the source begins', () => {
    for (const seed of SEEDS) {
      const { beds, faults } = seasonOf('source, buffers come late', seed);
      const start = beds[0]?.rots[0]?.startDay ?? Number.NaN;
      expect(faults.outages.some(({ fromDay }) => fromDay >= start - 1 && fromDay <= start + 6)).toBe(true);
    }
  });
});

// A hot one: roots that respire fast in a thick, warm bed must not warm without end.
test.each([1, 2, 3])('a hot bed stays one in which roots live (seed %d)', (seed) => {
  const season = seasonOf('box in a hut, hot spells', seed);
  const [bed] = season.beds;
  const means: Scenario['weather']['means'] = [[0, 30]];
  const hot = { ...season, days: 40, weather: { ...season.weather, means } };
  const last = trueExcessAt(hot, bed?.id ?? '', seed).at(-1);
  for (const { temperature_C } of last?.sands ?? []) {
    expect(temperature_C).toBeGreaterThan(25);
    expect(temperature_C).toBeLessThan(48);
  }
});
