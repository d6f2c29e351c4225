/** Readings that `serve --influx` has put into their hours, asked for over HTTP and by `export`. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { expect, onTestFinished, test, vi } from 'vitest';
import { exportReadings } from '../../services/commands/export/export.js';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import { startInfluxd } from '../support/influxd.js';
import { openStores, temporaryDirectory } from '../support/open.js';
import { run, start } from '../support/processes.js';

const DAYS = 95;
const PER_DAY = 24;
const END = Math.floor(Date.now() / DAY_ms) * DAY_ms;
const BEGIN = END - DAYS * DAY_ms;
const text = (time: number): string => new Date(time).toISOString();

const bed = (id: string) => ({
  ...{ id, name: id, kind: 'box', steps: [{ length: 100, width: 100, height: 50 }] },
  ...{ filled: text(BEGIN), roots: { count: 100, mass_kg: 30 } },
});
const placed = (id: string, where: object) => ({ id, placements: [{ ...where, from: text(BEGIN) }] });

/** Only the shade measures: nothing is to be judged. */
const SITE = {
  version: 1,
  site: { id: 'old-ridge', name: 'Old ridge', timezone: 'Africa/Lusaka' },
  beds: [bed('box-a'), bed('box-b')],
  probes: [
    placed('p01', { bed: 'box-a', x: 50, y: 50, depth: 25 }),
    placed('p02', { bed: 'box-b', x: 50, y: 50, depth: 25 }),
    placed('p09', { ambient: true }),
  ],
  people: [],
};

const TRIAL = {
  ...{ trial: 'sand-trial', name: 'Sand', at: text(BEGIN), by: 'station', from: text(BEGIN) },
  ...{ design: 'complete', treatments: ['coarse', 'fine'], outcome: { kind: 'highest-excess', day: 60 } },
  beds: [
    { bed: 'box-a', treatment: 'coarse' },
    { bed: 'box-b', treatment: 'fine' },
  ],
};

async function filledDirectory(): Promise<string> {
  const directory = temporaryDirectory();
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(SITE));
  expect(await run(['load', file, '--data', directory])).toMatchObject({ code: 0 });
  const { database, archive } = openStores(directory);
  database.transaction(() => {
    const key = archive.keys.keyOf('old-ridge', 'p09');
    for (let at = 0; at < DAYS * PER_DAY; at += 1)
      archive.readings.put(key, BEGIN + (at * DAY_ms) / PER_DAY, { temperature: 20 + (at % 11) / 8 });
    for (const [probe, excess] of [
      ['p01', 0.25],
      ['p02', 0.75],
    ] as const)
      for (let hour = BEGIN; hour < END; hour += 6 * HOUR_ms)
        archive.judged.put(archive.keys.keyOf('old-ridge', probe), { hour, expected: 20, band: 1, excess });
  })();
  database.close();
  return directory;
}

interface Shade {
  readonly note: string | null;
  readonly shade: readonly { readonly readFrom: readonly string[]; readonly time: readonly string[] }[];
}

test('are whole while the long archive answers, and said to be by hours when it does not', async () => {
  const influxd = await startInfluxd();
  onTestFinished(() => influxd.dispose());
  const url = `${influxd.url}/sand`;
  expect((await run(['archive', 'setup', '--influx', url])).code).toBe(0);
  const directory = await filledDirectory();
  expect((await run(['archive', 'copy', '--from', directory, '--to', url])).code).toBe(0);
  const flags = { data: directory, site: 'old-ridge', format: 'csv' };
  const [before, after] = [temporaryDirectory(), temporaryDirectory()];
  await exportReadings({ ...flags, out: before }, () => undefined);
  const rows = readFileSync(join(before, 'readings.csv'));

  const listen = ['--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0'];
  const service = start(['serve', '--data', directory, ...listen, '--influx', url, '--keep-days', '30']);
  const [, http = ''] = await service.said(/questions at (\S+)\/api/);
  const { database, archive } = openStores(directory);
  const key = archive.keys.keyOf('old-ridge', 'p09');
  await vi.waitFor(
    () => {
      const { since, goal } = archive.fullRate.mark(key);
      expect(goal > BEGIN && since === goal).toBe(true);
    },
    { timeout: 30_000, interval: 50 },
  );
  expect(database.prepare('SELECT count(*) FROM reading').pluck().get()).toBeLessThan(DAYS * PER_DAY);
  database.close();

  const csv = (): Promise<Response> => fetch(`${http}/api/export/readings.csv?site=old-ridge`);
  expect(Buffer.from(await (await csv()).arrayBuffer()).equals(rows)).toBe(true);
  await exportReadings({ ...flags, influx: url, out: after }, () => undefined);
  expect(readFileSync(join(after, 'readings.csv')).equals(rows)).toBe(true);
  const span = `from=${text(BEGIN)}&to=${text(END)}`;
  const series = async (): Promise<Shade> =>
    (await (await fetch(`${http}/api/beds/box-a/readings?${span}&points=5000&shade=true`)).json()) as Shade;
  const whole = await series();
  expect(whole.shade[0]?.readFrom).toEqual(['long-archive', 'full-rate']);
  expect(whole.shade[0]?.time).toHaveLength(DAYS * PER_DAY);
  const body = {
    method: 'POST',
    body: JSON.stringify(TRIAL),
    headers: { 'content-type': 'application/json' },
  };
  expect((await fetch(`${http}/api/trials`, body)).status).toBe(201);
  const curves = async (): Promise<string> =>
    await (await fetch(`${http}/api/trials/sand-trial/curves?of=excess`)).text();
  const seen = await curves();
  expect(seen).toContain('0.75');

  await influxd.kill();
  const refused = await csv();
  expect(refused.status).toBe(503);
  expect(await refused.text()).toContain('from the long archive, which does not answer');
  expect((await series()).shade[0]?.readFrom).toEqual(['hours', 'full-rate']);
  // What a watch has made of an hour stays here: a trial asks nobody.
  expect(await curves()).toBe(seen);
  await service.stop();
  const nothing = join(temporaryDirectory(), 'out');
  await expect(exportReadings({ ...flags, influx: url, out: nothing }, () => undefined)).rejects.toThrow(
    'which does not answer',
  );
  expect(existsSync(nothing)).toBe(false);
  const said: string[] = [];
  await exportReadings({ ...flags, out: nothing }, (line) => void said.push(line));
  expect(said.at(-1)).toContain('older readings stand by hours');
  const { data } = Papa.parse<{ of: string }>(readFileSync(join(nothing, 'readings.csv'), 'utf8'), {
    header: true,
  });
  expect(data[0]?.of).toBe('hour');
}, 120_000);
