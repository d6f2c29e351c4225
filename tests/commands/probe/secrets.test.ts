import { chmodSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { mosquitto } from '../../../services/commands/probe/mosquitto.js';
import { list, make, type ProbeFlags, revoke } from '../../../services/commands/probe/secrets.js';
import { isOfHash } from '../../../services/joining/access/device-hash.js';
import { loadSite } from '../../../services/load.js';
import { openStores, temporaryDirectory } from '../../support/open.js';
import { SHORT_SEASON, siteOf } from '../../support/season.js';

const STATION = { SANDLARDER_MQTT_USER: 'station', SANDLARDER_MQTT_PASSWORD: 'dry sand over roots' };

function aFolder(sites: readonly unknown[] = [siteOf(SHORT_SEASON)]) {
  const data = temporaryDirectory();
  for (const site of sites) loadSite(data, 'site.json', site, Date.now());
  const said = (work: (say: (line: string) => void) => void): string[] => {
    const lines: string[] = [];
    work((line) => lines.push(line));
    return lines;
  };
  const flagged = (flags: Partial<ProbeFlags>): ProbeFlags => ({ data, ...flags });
  return {
    data,
    make: (ids: string[], flags: Partial<ProbeFlags> = {}, tell = (_: string): void => undefined) =>
      said((say) => make(ids, flagged(flags), say, tell)),
    revoke: (ids: string[], flags: Partial<ProbeFlags> = {}) =>
      said((say) => revoke(ids, flagged(flags), say)),
    list: (flags: Partial<ProbeFlags> = {}) => said((say) => list(flagged(flags), say)),
    access: () => openStores(data).registry.access,
  };
}

const OTHER = { version: 1, site: { id: 'hill', name: 'Hill', timezone: 'Africa/Lusaka' } };

test('secrets are made and shown once, listed without them, renewed, revoked, and noted in the trail', () => {
  const folder = aFolder();
  const notes: string[] = [];
  const [line = '', other = ''] = folder.make(['p01', 'p77'], {}, (note) => notes.push(note));
  expect(line).toMatch(/^p01: user test-ridge\.p01, secret [\w-]{43}$/);
  expect(notes).toEqual([
    'note: shown this once: a hash alone is kept',
    'note: no description has p77: what it sends is kept apart until one does',
  ]);
  const secretIn = (of: string): string => of.split('secret ')[1] ?? '';
  const hash = folder.access().secrets.get('test-ridge.p01')?.hash ?? '';
  expect(isOfHash(Buffer.from(secretIn(line)), hash)).toBe(true);
  expect(isOfHash(Buffer.from(secretIn(other)), hash)).toBe(false);
  const [json = ''] = folder.make(['p01'], { json: true }, (note) => notes.push(note));
  expect(JSON.parse(json)).toMatchObject([{ user: 'test-ridge.p01', isRenewal: true }]);
  expect(notes.at(-1)).toBe('note: of p01 the secret of before holds no more');
  expect(folder.list()).toEqual([
    expect.stringMatching(/^probe p01: user test-ridge\.p01, since 20/),
    expect.stringMatching(/^probe p77: /),
  ]);
  expect(folder.revoke(['p01', 'p77'])).toEqual([
    'p01: its secret holds no more',
    'p77: its secret holds no more',
  ]);
  expect(folder.list()).toEqual(['no probe has a secret of its own']);
  const trail = folder.access().audit.list(Number.MAX_SAFE_INTEGER, 99);
  expect(
    trail.filter(({ did }) => did !== 'load').map(({ did, what, result }) => [did, what, result]),
  ).toEqual([
    ['probeRevoke', 'probe p77 of test-ridge', 'done: taken away'],
    ['probeRevoke', 'probe p01 of test-ridge', 'done: taken away'],
    ['probeSecret', 'probe p01 of test-ridge', 'done: made'],
    ['probeSecret', 'probe p77 of test-ridge', 'done: made'],
    ['probeSecret', 'probe p01 of test-ridge', 'done: made'],
  ]);
  expect(trail[0]).toMatchObject({ how: 'data directory', address: '', who: expect.stringMatching(/./) });
  expect(JSON.stringify(trail)).not.toContain(secretIn(line));
});

describe('what is refused, and makes nothing', () => {
  test.each<[string, string[], unknown[], Partial<ProbeFlags>, string, RegExp]>([
    ['an id that is none', ['p01', 'P 1'], [], {}, 'WRONG_USAGE', /expected ids of probes.*got "P 1"/],
    ['no site', ['p01'], [], {}, 'WRONG_USAGE', /found none: load its description first/],
    [
      'one of two sites',
      ['p01'],
      [siteOf(SHORT_SEASON), OTHER],
      {},
      'WRONG_USAGE',
      /--site: expected one of hill, test-ridge/,
    ],
    [
      'a site that is none',
      ['p01'],
      [OTHER],
      { site: 'nowhere' },
      'NOT_FOUND',
      /no site has the id "nowhere"/,
    ],
  ])('%s', (_what, ids, sites, flags, code, message) => {
    const folder = aFolder(sites);
    expect(() => folder.make(ids, flags)).toThrow(
      expect.objectContaining({ code, message: expect.stringMatching(message) }),
    );
    expect(folder.access().secrets.count()).toBe(0);
  });

  test('to revoke one that there is not is told, and noted', () => {
    const folder = aFolder();
    expect(() => folder.revoke(['p01'], { lamp: true })).toThrow(
      /the lamp "p01" of site "test-ridge" has no secret/,
    );
    expect(folder.access().audit.list(99, 1)).toMatchObject([
      { did: 'lampRevoke', result: expect.stringMatching(/^not done: the lamp/) },
    ]);
  });
});

describe('files for a Mosquitto', () => {
  const write = (data: string, to: string, environment: object = STATION): string[] => {
    const lines: string[] = [];
    mosquitto({ data, to }, (line) => lines.push(line), environment as Record<string, string>);
    return lines;
  };

  test('hold each device to its topics, and nobody else reads the passwords', () => {
    const folder = aFolder();
    folder.make(['p01']);
    folder.make(['hut'], { lamp: true });
    const to = temporaryDirectory();
    expect(write(folder.data, to)[0]).toContain('1 probes, 1 lamps and the service as station');
    expect(readFileSync(join(to, 'sandlarder.acl'), 'utf8').split('\n').slice(1)).toEqual([
      '',
      'user station',
      'topic read sandlarder/v1/+/probes/+/+',
      'topic readwrite sandlarder/v1/+/beds/+/alarm',
      'topic write sandlarder/v1/+/records/+',
      'topic read $SYS/broker/#',
      '',
      'user test-ridge.lamp.hut',
      'topic read sandlarder/v1/test-ridge/beds/+/alarm',
      '',
      'user test-ridge.p01',
      'topic readwrite sandlarder/v1/test-ridge/probes/p01/readings',
      'topic readwrite sandlarder/v1/test-ridge/probes/p01/status',
      '',
    ]);
    const passwords = join(to, 'sandlarder.passwords');
    expect(readFileSync(passwords, 'utf8')).toMatch(
      /^station:\$7\$20000\$\S+\ntest-ridge\.lamp\.hut:\$7\$101\$\S+\ntest-ridge\.p01:\$7\$101\$\S+\n$/,
    );
    expect(statSync(passwords).mode & 0o077).toBe(0);
    chmodSync(passwords, 0o644);
    write(folder.data, to);
    expect(statSync(passwords).mode & 0o077).toBe(0);
  });

  test.each<[object, RegExp]>([
    [{}, /expected SANDLARDER_MQTT_USER and SANDLARDER_MQTT_PASSWORD, by which the service itself connects/],
    [{ SANDLARDER_MQTT_USER: 'station' }, /together, got only one/],
    [{ ...STATION, SANDLARDER_MQTT_USER: 'a:b' }, /without blanks, ":" and "#"/],
    [{ ...STATION, SANDLARDER_MQTT_USER: 'a\nuser b' }, /without blanks/],
    [{ ...STATION, SANDLARDER_MQTT_USER: 'test-ridge.p01' }, /that is no device's/],
  ])('%j is refused, and writes nothing', (environment, message) => {
    const folder = aFolder();
    folder.make(['p01']);
    const to = temporaryDirectory();
    expect(() => write(folder.data, to, environment)).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(message) }),
    );
    expect(statSync(join(to, 'sandlarder.acl'), { throwIfNoEntry: false })).toBeUndefined();
  });

  test('a folder that is not there is told', () => {
    const { data } = aFolder();
    expect(() => write(data, join(data, 'none'))).toThrow(
      /--to: expected a file that can be written at .*sandlarder\.acl, got/,
    );
  });
});
