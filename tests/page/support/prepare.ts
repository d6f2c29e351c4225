/**
 * Before the tests of the page: a season of six weeks that ends now, taken in, watched and kept by the real service,
 * once for all of them. A test that only reads asks the one service of it; each other serves a copy of its own.
 */
import { existsSync, mkdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { TestProject } from 'vitest/node';
import { loadSite } from '../../../services/load.js';
import { serve } from '../../../services/serve.js';
import { readServeSettings } from '../../../services/settings.js';
import { publish } from '../../../simulator/index.js';
import { serveToRead } from './reading.js';
import { keepRecords } from './records.js';
import { PAGE_SCENARIO, SEASON, SEASON_days, siteOfSeason } from './season.js';
import { publishUnfilled } from './unfilled.js';

const HOUR_ms = 3_600_000;
const DAY_ms = 24 * HOUR_ms;

/** Simulated seconds in a second: as fast as it can be taken in. */
const SPEED = 1e9;

/** A season that is kept for further runs (`SANDLARDER_KEEP_SEASON=1`) serves for so long, ms: then its probes seem silent. */
const STAYS_FRESH_ms = 60 * 60_000;

export default async function prepare({ provide }: TestProject): Promise<() => Promise<void>> {
  await makeSeason();
  const { end, ...toRead } = await serveToRead();
  provide('seasonToRead', toRead);
  return end;
}

async function makeSeason(): Promise<void> {
  if (process.env['SANDLARDER_KEEP_SEASON'] && isFresh()) return;
  rmSync(SEASON, { recursive: true, force: true });
  mkdirSync(SEASON, { recursive: true });
  // Whole hours, so that the last is judged; the newest readings are minutes old.
  const endsAt = Math.floor((Date.now() - 10 * 60_000) / HOUR_ms) * HOUR_ms;
  const from = endsAt - SEASON_days * DAY_ms;
  const site = siteOfSeason(from, endsAt);
  writeFileSync(join(SEASON, 'site.json'), JSON.stringify(site));
  const data = join(SEASON, 'data');
  loadSite(data, 'page season', site, Date.now());
  const settings = readServeSettings({ data, listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0' }, {});
  const service = await serve({ settings, tellConsole: () => undefined, log: () => undefined });
  try {
    await publish({ brokerUrl: service.brokerUrl, scenario: PAGE_SCENARIO, seed: 1, from, speed: SPEED });
    await publishUnfilled(service.brokerUrl, PAGE_SCENARIO.site.id, endsAt);
    while (!service.settled()) await wait(20);
    await keepRecords(service.httpUrl, from);
    while (!service.settled()) await wait(20);
  } finally {
    await service.close();
  }
  writeFileSync(join(SEASON, 'done'), '');
}

function isFresh(): boolean {
  const done = join(SEASON, 'done');
  return existsSync(done) && Date.now() - statSync(done).mtimeMs < STAYS_FRESH_ms;
}
