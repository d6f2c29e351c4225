/** `kill -9` while a real service puts readings into their hours: each is there once, whenever it comes. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { createArchive, openForReading } from '../../services/archive/index.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { openStores, temporaryDirectory } from '../support/open.js';
import { run, start } from '../support/processes.js';

const KILLS = 2;
const DAYS = 110;
const PER_DAY = 144;
const PROBES = ['p01', 'p02'];
const END = Math.floor(Date.now() / DAY_ms) * DAY_ms;

const SITE = {
  version: 1,
  site: { id: 'old-ridge', name: 'Old ridge', timezone: 'Africa/Lusaka' },
  beds: [],
  probes: PROBES.map((id) => ({ id, placements: [] })),
  people: [],
};

async function filledDirectory(): Promise<string> {
  const directory = temporaryDirectory();
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(SITE));
  expect(await run(['load', file, '--data', directory])).toMatchObject({ code: 0 });
  const { database, archive } = openStores(directory);
  database.transaction(() => {
    for (const probe of PROBES)
      for (let at = 0; at < DAYS * PER_DAY; at += 1)
        archive.readings.put(
          archive.keys.keyOf('old-ridge', probe),
          END - DAYS * DAY_ms + (at * DAY_ms) / PER_DAY,
          {
            temperature: 20 + (at % 7) / 8,
          },
        );
  })();
  database.close();
  return directory;
}

/** Readings one by one and in hours, and the sum of their temperatures. */
function atRest(directory: string) {
  const database = openForReading(directory, []);
  const all = database
    .prepare(
      `SELECT sum(count) AS count, sum(total) AS total, sum(hours) AS hours FROM (
         SELECT count(*) AS count, sum(temperature) AS total, 0 AS hours FROM reading
         UNION ALL SELECT coalesce(sum(temperature_count), 0), coalesce(sum(temperature_count * temperature_mean), 0),
           count(*) FROM reading_hour)`,
    )
    .get() as { count: number; total: number; hours: number };
  const { fullRate, keys } = createArchive(database);
  const since = PROBES.map((probe) => fullRate.since(keys.find('old-ridge', probe) ?? 0));
  database.close();
  return { ...all, since };
}

/** How far it is, cheaply. */
function progress(directory: string): { hours: number; since: number } {
  const database = openForReading(directory, []);
  const row = database
    .prepare(
      `SELECT (SELECT count(*) FROM reading_hour) AS hours,
       CASE WHEN count(*) = ${PROBES.length} THEN min(since) ELSE 0 END AS since FROM full_rate`,
    )
    .get() as { hours: number; since: number };
  database.close();
  return row;
}

test('nothing is lost or doubled by kills, and what is sent again is known', async () => {
  const directory = await filledDirectory();
  const before = atRest(directory);
  expect(before).toMatchObject({ count: PROBES.length * DAYS * PER_DAY, hours: 0 });
  const serve = ['serve', '--data', directory, '--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0'];
  const service = () => start([...serve, '--keep-days', '30']);
  let hours = 0;
  const folds = (wanted: () => boolean) =>
    vi.waitFor(() => expect(wanted()).toBe(true), { timeout: 30_000, interval: 25 });
  for (let kill = 0; kill < KILLS; kill += 1) {
    const running = service();
    await folds(() => progress(directory).hours > hours);
    await running.kill();
    const after = atRest(directory);
    expect(after.count).toBe(before.count);
    expect(after.total).toBeCloseTo(before.total, 5);
    hours = after.hours;
  }
  const running = service();
  await folds(() => progress(directory).since >= END - 61 * DAY_ms);
  expect(await running.stop()).toBe(0);
  const after = atRest(directory);
  expect(after.count).toBe(before.count);
  expect(after.total).toBeCloseTo(before.total, 5);
  expect(Math.max(...after.since)).toBeLessThanOrEqual(END - 30 * DAY_ms);
  const { archive } = openStores(directory);
  const key = archive.keys.find('old-ridge', 'p01') ?? 0;
  expect(archive.readings.put(key, END - DAYS * DAY_ms, { temperature: 20 })).toMatchObject({
    kept: 0,
    duplicates: 1,
  });
}, 90_000);
