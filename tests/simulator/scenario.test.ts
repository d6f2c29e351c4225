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
  expect(truthOf(scenario).map(({ bed, kind, startDay }) => [bed, kind, startDay])).toEqual([
    ['pit-b', 'rot', 20],
    ['pit-c', 'leak', 30],
  ]);
  expect(truthOf({ ...scenario, days: 25 })).toHaveLength(1);
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
