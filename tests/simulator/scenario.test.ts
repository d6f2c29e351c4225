import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { readMessage } from '../../services/intake/index.js';
import { listScenarios, loadScenario, siteOf, truthOf } from '../../simulator/index.js';
import { packOf, readingsTopic } from '../../simulator/pack.js';
import { temporaryDirectory } from '../support/open.js';

const FROM = Date.UTC(2026, 4, 4, 8);

test.each(listScenarios())('%s gives a site file that is taken', (name) => {
  const site = checkSiteFile('site.json', siteOf(loadScenario(name), FROM));
  expect(site.probes.length).toBeGreaterThan(3);
  expect(site.people.map(({ id }) => id)).toEqual(site.beds.map(({ keeper }) => keeper));
});

test('what is planted is told, and only what begins within the season', () => {
  const scenario = loadScenario('demo-site');
  expect(truthOf(scenario, 1).map(({ bed, kind, startDay }) => [bed, kind, startDay])).toEqual([
    ['pit-b', 'rot', 20],
    ['pit-c', 'leak', 30],
  ]);
  expect(truthOf({ ...scenario, days: 25 }, 1)).toHaveLength(1);
});

test('a pack is read as it was meant, one reading or many', () => {
  const readings = [600, 1200, 4800].map((time_s, index) => ({
    time_s,
    temperature_C: 20 + index,
    humidity_RH: 85,
    battery_V: 3.05,
  }));
  const incoming = {
    topic: readingsTopic('ridge-station', 'p01'),
    payload: Buffer.from(packOf('p01', readings, FROM)),
    receivedAt: FROM + 1e8,
  };
  const { measured, setAside } = readMessage(incoming);
  expect(setAside).toEqual([]);
  expect(
    measured
      .filter(({ quantity }) => quantity === 'temperature')
      .map(({ time, value }) => [time - FROM, value]),
  ).toEqual([
    [600_000, 20],
    [1_200_000, 21],
    [4_800_000, 22],
  ]);
});

describe('a scenario file', () => {
  const written = (content: unknown): string => {
    const file = join(temporaryDirectory(), 'scenario.json');
    writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
    return file;
  };
  const good = (): Record<string, unknown> =>
    structuredClone(loadScenario('sound-pit')) as Record<string, unknown>;

  test('of the right shape is taken', () => {
    expect(loadScenario(written(good())).name).toBe('sound-pit');
  });

  test.each([
    ['no JSON', '{', /scenario .*scenario\.json: /],
    ['an unknown key', { ...good(), wether: 1 }, /expected no key "wether"/],
    ['too long a season', { ...good(), days: 4000 }, /days: expected at most 400, got 4000/],
    ['no bed', { ...good(), beds: [] }, /beds: expected at least 1 entries/],
  ])('with %s is refused', (_, content, sentence) => {
    expect(() => loadScenario(written(content))).toThrow(sentence);
  });

  test('with a probe outside its bed is refused', () => {
    const scenario = good();
    const [bed] = scenario['beds'] as { probes: unknown[] }[];
    if (bed) bed.probes = [{ id: 'p01', x: 500, y: 0, depth: 0 }];
    expect(() => loadScenario(written(scenario))).toThrow(
      /beds\[0\]\.probes\[0\]: expected a point inside bed "pit-a"/,
    );
  });

  test('that is neither a name nor a file is refused', () => {
    expect(() => loadScenario('sound-pot')).toThrow(/scenario sound-pot: /);
  });
});

describe('a scenario whose parts do not agree is refused by key', () => {
  type Loose = {
    site: Record<string, unknown>;
    weather: Record<string, unknown>;
    shade: string[];
    beds: (Record<string, unknown> & { id: string; probes: { id: string }[] })[];
  };
  const refusalOf = (change: (scenario: Loose, bed: Loose['beds'][number]) => void): string => {
    const scenario = structuredClone(loadScenario('rot-pit')) as unknown as Loose;
    const [bed] = scenario.beds;
    if (!bed) throw new Error('expected a bed');
    change(scenario, bed);
    const file = join(temporaryDirectory(), 'scenario.json');
    writeFileSync(file, JSON.stringify(scenario));
    try {
      loadScenario(file);
    } catch (error) {
      expect(error).toMatchObject({ code: 'WRONG_USAGE' });
      return (error as Error).message;
    }
    return 'taken';
  };
  const rot = { startDay: 0, x: 62, y: 52, depth: 38, grown_W: 5, growth_days: 6 };
  const leak = { startDay: 0, x: 75, y: 50, litres_per_day: 3 };

  test('while what agrees is taken', () => {
    expect(refusalOf((_, bed) => Object.assign(bed, { rots: [rot, rot], leak }))).toBe('taken');
  });

  test.each<[string, (scenario: Loose, bed: Loose['beds'][number]) => void, RegExp]>([
    [
      'rot outside the bed',
      (_, bed) => Object.assign(bed, { rots: [rot, { ...rot, x: 1000 }] }),
      /beds\[0\]\.rots\[1\]: expected a point inside bed "pit-b", got x 1000, y 52, depth 38 cm/,
    ],
    [
      'rot beside the lower step',
      (_, bed) => Object.assign(bed, { rots: [{ ...rot, y: 5 }] }),
      /beds\[0\]\.rots\[0\]: expected a point inside/,
    ],
    [
      'a leak beside the opening',
      (_, bed) => Object.assign(bed, { leak: { ...leak, y: 101 } }),
      /beds\[0\]\.leak: expected a point inside bed "pit-b", got x 75, y 101, depth 0 cm/,
    ],
    [
      'two beds of one id',
      (scenario, bed) => scenario.beds.push({ ...bed, probes: [] }),
      /beds\[1\]\.id: expected an id not yet taken, got "pit-b"/,
    ],
    [
      'a bed called as the shade is',
      (_, bed) => Object.assign(bed, { id: 'shade' }),
      /beds\[0\]\.id: expected an id not yet taken, got "shade"/,
    ],
    [
      'two probes of one id',
      (_, bed) => Object.assign(bed.probes[1] ?? {}, { id: 'p11' }),
      /beds\[0\]\.probes\[1\]\.id: expected an id not yet taken, got "p11"/,
    ],
    [
      'a shade probe with the id of a bed probe',
      (scenario) => scenario.shade.push('p11'),
      /shade\[1\]: expected an id not yet taken, got "p11"/,
    ],
    [
      'a time zone that is none',
      (scenario) => Object.assign(scenario.site, { timezone: 'Nowhere/Land' }),
      /site\.timezone: expected an IANA time zone such as Africa\/Lusaka, got "Nowhere\/Land"/,
    ],
    [
      'a box of two steps',
      (_, bed) => Object.assign(bed, { kind: 'box' }),
      /beds\[0\]\.steps: expected exactly one step for a box, got 2/,
    ],
    [
      'means out of order',
      (scenario) =>
        Object.assign(scenario.weather, {
          means: [
            [50, 20],
            [10, 5],
          ],
        }),
      /weather\.means\[1\]: expected a day after 50: means run in order of days, got 10/,
    ],
  ])('%s', (_, change, sentence) => {
    expect(refusalOf(change)).toMatch(sentence);
  });

  test('and a bed of the longest id still gives a site file that is taken', () => {
    const scenario = structuredClone(loadScenario('sound-pit'));
    const [bed] = scenario.beds;
    if (bed) bed.id = 'a'.repeat(32);
    expect(() => checkSiteFile('site.json', siteOf(scenario, FROM))).not.toThrow();
  });
});

test.each(['constructor', 'toString', '__proto__'])('%s is no name of a scenario', (name) => {
  expect(() => loadScenario(name)).toThrow(
    /expected one of sound-pit, rot-pit, leak-pit, sound-box, demo-site, or a file, got neither/,
  );
});
