import { expect, test } from 'vitest';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { openStores } from '../support/open.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';

type Json = Record<string, unknown> & { beds: Record<string, unknown>[]; probes: Record<string, unknown>[] };

const siteJson = (): Json => structuredClone(siteOf(SHORT_SEASON)) as Json;

test('a description comes back as it was loaded', () => {
  const { registry } = openStores();
  const description = checkSiteFile('site.json', siteJson());
  registry.sites.load(description, 1);
  const [kept] = registry.sites.descriptions();
  expect(kept?.beds).toEqual(description.beds);
  expect(kept?.probes.map(({ id }) => id)).toEqual(['p01', 'p02', 'p03', 'p09']);
});

test('loading the same again changes nothing but the revision', () => {
  const { registry } = openStores();
  const description = checkSiteFile('site.json', siteJson());
  registry.sites.load(description, 1);
  const { counts } = registry.sites.load(description, 2);
  expect(counts['bed']).toEqual({ added: 0, changed: 0, same: 1 });
  expect(registry.sites.revision()).toBe(2);
});

test('a change is a new version and the old one stays', () => {
  const { registry, database } = openStores();
  registry.sites.load(checkSiteFile('site.json', siteJson()), 1);
  const changed = siteJson();
  Object.assign(changed.beds[0] ?? {}, { name: 'Pit of the school' });
  registry.sites.load(checkSiteFile('site.json', changed), 2);
  expect(registry.sites.descriptions()[0]?.beds[0]?.name).toBe('Pit of the school');
  expect(database.prepare("SELECT count(*) FROM entity WHERE kind = 'bed'").pluck().get()).toBe(2);
});

test('what a later file leaves out stays', () => {
  const { registry } = openStores();
  registry.sites.load(checkSiteFile('site.json', siteJson()), 1);
  const { site } = siteJson();
  const known = registry.sites.descriptions()[0];
  registry.sites.load(
    checkSiteFile('more.json', { version: 1, site, beds: [], probes: [], people: [] }, known),
    2,
  );
  expect(registry.sites.descriptions()[0]?.probes).toHaveLength(4);
});

test('a file may name a bed that was loaded before', () => {
  const { registry } = openStores();
  registry.sites.load(checkSiteFile('site.json', siteJson()), 1);
  const known = registry.sites.descriptions()[0];
  const probe = {
    id: 'p04',
    placements: [{ bed: 'pit-t', x: 10, y: 30, depth: 10, from: '2026-06-01T00:00:00Z' }],
  };
  const file = { version: 1, site: siteJson()['site'], probes: [probe] };
  expect(() => checkSiteFile('more.json', file)).toThrow(
    /probes\[0\].placements\[0\].bed: expected the id of one of beds/,
  );
  expect(checkSiteFile('more.json', file, known).probes).toHaveLength(1);
});

test('a bed cannot shrink away from its probes', () => {
  const { registry } = openStores();
  registry.sites.load(checkSiteFile('site.json', siteJson()), 1);
  const known = registry.sites.descriptions()[0];
  const smaller = siteJson();
  Object.assign(smaller.beds[0] ?? {}, { steps: [{ length: 50, width: 50, height: 25 }] });
  smaller.probes = [];
  expect(() => checkSiteFile('smaller.json', smaller, known)).toThrow(
    /expected a point inside bed "pit-t".*probe "p01"/,
  );
});

test('a bed of another site is refused and nothing of the file is taken in', () => {
  const { registry } = openStores();
  registry.sites.load(checkSiteFile('site.json', siteJson()), 1);
  const other = siteJson();
  other['site'] = { id: 'other-ridge', name: 'Other ridge', timezone: 'Africa/Lusaka' };
  expect(() => registry.sites.load(checkSiteFile('other.json', other), 2)).toThrow(
    /"pit-t", which is a bed of site "test-ridge"/,
  );
  expect(registry.sites.descriptions().map(({ site }) => site.id)).toEqual(['test-ridge']);
  expect(registry.sites.revision()).toBe(1);
});
