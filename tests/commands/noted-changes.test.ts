/** What commands change by the data directory stands in the audit trail: by whom, what, and what came of it. */

import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { userInfo } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, onTestFinished, test } from 'vitest';
import { lockDirectory } from '../../services/archive/index.js';
import { link } from '../../services/commands/access/access.js';
import { importFile } from '../../services/commands/import/import.js';
import { backup, checkData, restoreFile } from '../../services/commands/safekeeping/safekeeping.js';
import { loadSite } from '../../services/load.js';
import { auditProblems } from '../../services/registry/index.js';
import { openStores, temporaryDirectory } from '../support/open.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { tableFile } from '../tables/import/a-table.js';

const silent = (): void => undefined;

/** Newest first. */
function trailOf(data: string) {
  const { registry, database } = openStores(data);
  expect(auditProblems(database)).toEqual([]);
  return registry.access.audit.list(Number.MAX_SAFE_INTEGER, 99);
}

const shortly = (data: string) => trailOf(data).map(({ did, what, result }) => [did, what, result]);

function withSite(): string {
  const data = temporaryDirectory();
  loadSite(data, 'site.json', siteOf(SHORT_SEASON), Date.now());
  return data;
}

const LOADED = ['load', 'site.json', expect.stringMatching(/^done: site test-ridge: 1 site added/)];

describe('load', () => {
  test('is noted with whoever the operating system says, also where nothing is new', () => {
    const data = withSite();
    loadSite(data, 'site.json', siteOf(SHORT_SEASON), Date.now());
    expect(shortly(data)).toEqual([['load', 'site.json', 'done: site test-ridge: nothing new'], LOADED]);
    expect(trailOf(data)[0]).toMatchObject({ who: userInfo().username, how: 'data directory', address: '' });
  });

  test('that was refused is noted as not done, with why', () => {
    const data = withSite();
    expect(() => loadSite(data, 'other.json', { version: 2, site: { id: 'x' } }, Date.now())).toThrow();
    expect(shortly(data)).toEqual([
      ['load', 'other.json', expect.stringMatching(/^not done: other\.json: version: expected 1/)],
      LOADED,
    ]);
  });

  test('that cannot be noted is not made', () => {
    const data = withSite();
    openStores(data).database.exec(
      "CREATE TRIGGER full BEFORE INSERT ON audit BEGIN SELECT RAISE(ABORT, 'disk full'); END",
    );
    const changed = { ...(siteOf(SHORT_SEASON) as object), people: [{ id: 'new', name: 'New' }] };
    expect(() => loadSite(data, 'site.json', changed, Date.now())).toThrow('disk full');
    const [site] = openStores(data).registry.sites.descriptions();
    expect(site?.people.map(({ id }) => id)).not.toContain('new');
  });
});

const FLAGS = { site: 'test-ridge', time: ['time'], probe: 'p01', value: ['T=temperature:°C'] };
const TABLE = 'time,T\n2026-05-04T10:00:00Z,21.4\n2026-05-04T10:10:00Z,warm\n';

describe('import', () => {
  test('is noted with its counts, and the same file again as nothing', async () => {
    const data = withSite();
    const file = tableFile(TABLE);
    for (let time = 0; time < 2; time += 1) await importFile(file, { data, ...FLAGS }, silent);
    expect(shortly(data).slice(0, 2)).toEqual([
      ['import', expect.stringMatching(/\.csv$/), 'done: nothing, as all of it was in'],
      ['import', expect.stringMatching(/\.csv$/), 'done: 1 values kept, 0 apart, 1 lines refused'],
    ]);
  });

  test('that fails is noted as not done; a dry run, and one beside a service, changes nothing', async () => {
    const data = withSite();
    const file = tableFile(TABLE);
    await importFile(file, { data, ...FLAGS, dryRun: true }, silent);
    const unlock = lockDirectory(data);
    await expect(importFile(file, { data, ...FLAGS }, silent)).rejects.toMatchObject({ code: 'CONFLICT' });
    unlock();
    expect(shortly(data)).toEqual([LOADED]);
    writeFileSync(`${file}.refused.csv`, 'something else');
    await expect(importFile(file, { data, ...FLAGS }, silent)).rejects.toThrow();
    expect(shortly(data)[0]).toEqual(['import', expect.anything(), expect.stringMatching(/^not done: /)]);
  });
});

describe('restore', () => {
  test('is noted in what was restored, whose trail goes on from there', async () => {
    const data = withSite();
    const copy = join(temporaryDirectory(), 'copy.db');
    await backup({ data, to: copy }, silent);
    loadSite(data, 'later.json', siteOf(SHORT_SEASON), Date.now());
    for (const directory of [data, temporaryDirectory()]) {
      await restoreFile(copy, { data: directory }, silent);
      expect(shortly(directory)).toEqual([['restore', 'copy.db', 'done'], LOADED]);
      expect(readdirSync(directory)).not.toContain('sandlarder.db.restoring');
      checkData(undefined, { data: directory }, silent);
    }
    const before = readdirSync(data).find((name) => name.startsWith('before-restore-')) ?? '';
    expect(shortly(join(data, before))[0]?.[1]).toBe('later.json');
  });

  test('refused it is nowhere noted', async () => {
    const data = withSite();
    onTestFinished(lockDirectory(data));
    const copy = join(temporaryDirectory(), 'copy.db');
    await backup({ data, to: copy }, silent);
    await expect(restoreFile(copy, { data }, silent)).rejects.toMatchObject({ code: 'CONFLICT' });
    expect(shortly(data)).toEqual([LOADED]);
  });

  test('of a backup from before there was a trail works, as it has none to write to', async () => {
    const fixtures = new URL('../fixtures/databases/', import.meta.url);
    const [oldest = ''] = readdirSync(fixtures)
      .filter((name) => name.endsWith('.db.gz'))
      .sort();
    const old = join(temporaryDirectory(), 'old.db');
    writeFileSync(old, gunzipSync(readFileSync(new URL(oldest, fixtures))));
    const data = temporaryDirectory();
    await restoreFile(old, { data }, silent);
    expect(readFileSync(join(data, 'sandlarder.db')).length).toBeGreaterThan(0);
    expect(shortly(data)).toEqual([]);
  });
});

test('a link that lets somebody in is noted with who made it', () => {
  const data = withSite();
  link(undefined, { data, service: 'http://127.0.0.1:8080' }, silent);
  expect(trailOf(data)[0]).toMatchObject({
    ...{ who: userInfo().username, how: 'data directory', did: 'link', result: 'done' },
  });
});
