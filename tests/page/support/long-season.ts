/** Half a year of ten-minute readings of nine probes and the shade, written straight to rest: what a plot must bear. */
import {
  ARCHIVE_SCHEMA,
  type Archive,
  createArchive,
  openDatabase,
} from '../../../services/archive/index.js';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { formatTime, HOUR_ms, MINUTE_ms } from '../../../services/core/model/time.js';
import { sandWatch } from '../../../services/core/watch/sand-watch.js';
import { Directory } from '../../../services/joining/directory.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../../services/registry/index.js';

export const LONG_SEASON = { days: 180, probes: 9, every_ms: 10 * MINUTE_ms } as const;

const READINGS = (LONG_SEASON.days * 24 * HOUR_ms) / LONG_SEASON.every_ms;

const PROBES = Array.from({ length: LONG_SEASON.probes }, (_, at) => `p0${at + 1}`);

const siteFrom = (from: string) => ({
  version: 1,
  site: { id: 'long-ridge', name: 'Long ridge', timezone: 'Africa/Lusaka' },
  beds: [
    {
      ...{ id: 'pit-l', name: 'Pit L', kind: 'stepped-pit', filled: from },
      steps: [{ length: 150, width: 100, height: 60 }],
    },
  ],
  probes: [
    ...PROBES.map((id, at) => ({
      id,
      placements: [{ bed: 'pit-l', x: 15 + 15 * at, y: 50, depth: 12 + 4 * at, from }],
    })),
    { id: 'p99', placements: [{ ambient: true, from }] },
  ],
});

/** @returns the data folder, as it is after the last hour was judged */
export function longSeason(data: string): string {
  const database = openDatabase(data, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  const archive = createArchive(database);
  const registry = createRegistry(database);
  const endsAt = Math.floor(Date.now() / HOUR_ms) * HOUR_ms;
  const from = endsAt - LONG_SEASON.days * 24 * HOUR_ms;
  registry.sites.load(checkSiteFile('site.json', siteFrom(formatTime(from))), from);
  database.transaction(() => {
    const keyOf = (site: string, probe: string): number => archive.keys.keyOf(site, probe);
    const directory = new Directory(registry.sites.descriptions(), keyOf);
    for (const [at, id] of PROBES.entries()) fill(archive, keyOf('long-ridge', id), from, at);
    fillShade(archive, keyOf('long-ridge', 'p99'), from);
    const digest = directory.beds.get('pit-l')?.digest ?? '';
    const judged = { begunAt: from, judgedTo: endsAt, dirtyFrom: null };
    registry.watch.setMark('pit-l', { version: `${sandWatch.version}/${digest}`, ...judged });
  })();
  database.close();
  return data;
}

const wave = (at: number, period: number, later = 0): number =>
  Math.sin((2 * Math.PI * (at - later)) / period);

function fill(archive: Archive, key: number, from: number, probe: number): void {
  for (let at = 0; at < READINGS; at += 1) {
    const temperature = 21 + 2 * wave(at, READINGS) + wave(at, 144, 30 + 9 * probe) / (probe + 2);
    archive.readings.put(key, from + at * LONG_SEASON.every_ms, {
      temperature: Math.round(16 * (temperature + 0.04 * wave(at, 7.1 + probe))) / 16,
      humidity: Math.round(10 * (82 + 4 * wave(at, 3000, 200 * probe))) / 10,
    });
  }
  for (let hour = 0; hour < LONG_SEASON.days * 24; hour += 1)
    archive.judged.put(key, {
      ...{ hour: from + hour * HOUR_ms, expected: 21 + 2 * wave(hour * 6, READINGS), band: 0.4 },
      excess: 0.2 * wave(hour, 400, 30 * probe),
    });
}

function fillShade(archive: Archive, key: number, from: number): void {
  for (let at = 0; at < READINGS; at += 1)
    archive.readings.put(key, from + at * LONG_SEASON.every_ms, {
      ...{ temperature: 20 + 6 * wave(at, 144), humidity: 55 },
    });
}
