import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { temporaryDirectory } from './support/open.js';
import { run, start } from './support/processes.js';
import { SHORT_SEASON, siteOf } from './support/season.js';

type Json = { beds: Record<string, unknown>[]; probes: Record<string, unknown>[] } & Record<string, unknown>;

const siteJson = (): Json => structuredClone(siteOf(SHORT_SEASON)) as Json;

function written(directory: string, content: unknown): string {
  const file = join(directory, 'site.json');
  writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
  return file;
}

async function refusal(content: unknown): Promise<{ code: number | null; stderr: string }> {
  const directory = temporaryDirectory();
  const { code, stderr } = await run([
    'load',
    written(directory, content),
    '--data',
    join(directory, 'data'),
  ]);
  expect(stderr.trim().split('\n')).toHaveLength(1);
  return { code, stderr };
}

describe('help and usage', () => {
  test('--help lists the commands, each with --help of its own', async () => {
    const { code, stdout } = await run(['--help']);
    expect(code).toBe(0);
    for (const name of ['demo', 'serve', 'load', 'simulate']) {
      expect(stdout).toContain(name);
      expect((await run([name, '--help'])).code).toBe(0);
    }
  });

  test('the version is that of package.json', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect((await run(['--version'])).stdout.trim()).toBe(version);
  });

  test.each([
    [['feast']],
    [['serve', '--dta', 'x']],
    [['load']],
    [['load', 'a', 'b']],
    [['serve', '--listen', 'x']],
  ])('%j is wrong usage: one line and exit 2', async (args) => {
    const { code, stderr } = await run(args);
    expect(code).toBe(2);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });

  test('no command is wrong usage, and the commands are shown', async () => {
    const { code, stderr, stdout } = await run([]);
    expect(code).toBe(2);
    expect(stdout + stderr).toContain('serve');
  });
});

describe('load', () => {
  test('tells what it took in, as text and as JSON', async () => {
    const directory = temporaryDirectory();
    const file = written(directory, siteJson());
    const data = join(directory, 'data');
    expect((await run(['load', file, '--data', data])).stdout).toBe(
      'site test-ridge: 1 site added, 1 bed added, 4 probes added, 1 person added\n',
    );
    const again = JSON.parse((await run(['load', file, '--data', data, '--json'])).stdout) as unknown;
    expect(again).toMatchObject({ site: 'test-ridge', counts: { bed: { same: 1 } } });
  });

  test('names whom it cannot reach', async () => {
    const site = siteJson();
    site['people'] = [{ id: 'keeper-t', name: 'Keeper', reach: [{ via: 'webhook', to: 'nowhere' }] }];
    const directory = temporaryDirectory();
    const { code, stderr } = await run(['load', written(directory, site), '--data', directory]);
    expect(code).toBe(0);
    expect(stderr).toContain('note: keeper-t cannot be told by webhook: expected a URL');
  });

  test('a file that is not there', async () => {
    const { code, stderr } = await run(['load', '/nowhere/site.json']);
    expect(code).toBe(2);
    expect(stderr).toContain('expected a file that can be read at /nowhere/site.json, got none');
  });

  test.each([
    ['no JSON', '{', /site\.json: expected JSON/],
    ['a list', '[]', /site\.json: expected a JSON object/],
    [
      'two probes of one id',
      { probes: [siteJson().probes[0], siteJson().probes[0]] },
      /probes\[1\]\.id: expected an id of its own, got "p01"/,
    ],
    ['a misspelt key', { prbes: [] }, /expected no key "prbes"/],
    ['a version of the future', { version: 2 }, /version: expected 1, got 2/],
  ])('%s is refused by file and key', async (_, changes, sentence) => {
    const { code, stderr } = await refusal(
      typeof changes === 'string' ? changes : { ...siteJson(), ...changes },
    );
    expect(stderr).toMatch(sentence);
    expect(code).toBe(2);
  });

  test('a placement outside its bed, and a time before 2000', async () => {
    const site = siteJson();
    Object.assign(site.probes[0] ?? {}, {
      placements: [{ bed: 'pit-t', x: 500, y: 40, depth: 30, from: '2026-05-04T08:00:00Z' }],
    });
    expect((await refusal(site)).stderr).toMatch(
      /probes\[0\]\.placements\[0\]: expected a point inside bed "pit-t", got x 500, y 40, depth 30 cm/,
    );
    Object.assign(site.beds[0] ?? {}, { filled: '1999-12-31T23:59:59Z' });
    expect((await refusal(site)).stderr).toMatch(/beds\[0\]\.filled: expected an RFC 3339 time.*got "1999/);
  });
});

describe('serve', () => {
  test('refuses to be reached by other machines without credentials', async () => {
    const data = temporaryDirectory();
    const wide = await run([
      'serve',
      '--data',
      data,
      '--listen',
      '0.0.0.0:0',
      '--mqtt-listen',
      '127.0.0.1:0',
    ]);
    expect(wide.stderr).toContain('refused to listen on 0.0.0.0:0');
    expect(wide.code).toBe(1);
    const mqtt = await run([
      'serve',
      '--data',
      data,
      '--listen',
      '127.0.0.1:0',
      '--mqtt-listen',
      '0.0.0.0:0',
    ]);
    expect(mqtt.stderr).toContain('refused to listen for MQTT on 0.0.0.0:0');
    expect(mqtt.code).toBe(1);
  });

  test('a second one on the same data directory is refused, the first goes on', async () => {
    const data = temporaryDirectory();
    const args = ['serve', '--data', data, '--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0'];
    const first = start(args);
    await first.said(/ready: /);
    const second = await run(args);
    expect(second.stderr).toContain('another service is running on the data directory');
    expect(second.code).toBe(1);
    expect(await first.stop()).toBe(0);
  });

  test('a site loaded while it runs is there within a look', async () => {
    const directory = temporaryDirectory();
    const service = start([
      'serve',
      '--data',
      directory,
      '--listen',
      '127.0.0.1:0',
      '--mqtt-listen',
      '127.0.0.1:0',
    ]);
    const [, url] = await service.said(/questions at (\S+)\/api/);
    expect(await (await fetch(`${url}/api/beds`)).json()).toEqual([]);
    await run(['load', written(directory, siteJson()), '--data', directory]);
    let beds: unknown[] = [];
    while (beds.length === 0) beds = (await (await fetch(`${url}/api/beds`)).json()) as unknown[];
    expect(beds).toHaveLength(1);
  });
});
