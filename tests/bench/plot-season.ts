/**
 * A process with a service over a season of one bed, and a connection of its own to the same database. It gives its
 * address once the watch has judged the season; `bare` reads the parts by SQL, `taken` gives the time of its core so far.
 */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../services/archive/index.js';
import { threadTime_ms } from '../../services/commands/evaluation/thread-time.js';
import { checkSiteFile } from '../../services/core/model/site-file.js';
import { DAY_ms, formatTime, MINUTE_ms } from '../../services/core/model/time.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { serve } from '../../services/serve.js';
import { readServeSettings } from '../../services/settings.js';
import { type BareAnswer, END, HOURS_WIDTH_ms, type Part, PLOT, START, WIDTH_ms } from './plot.js';

const STEP_ms = DAY_ms / PLOT.readingsPerDay;

const probes = Array.from({ length: PLOT.probes }, (_, index) => `p${index + 1}`);

const SITE = {
  version: 1,
  site: { id: 'bench-site', name: 'Bench site', timezone: 'Africa/Lusaka' },
  beds: [
    {
      ...{ id: 'pit', name: 'Pit', kind: 'box', filled: formatTime(START) },
      steps: [{ length: 200, width: 100, height: 60 }],
    },
  ],
  probes: probes.map((id, at) => ({
    id,
    placements: [
      {
        bed: 'pit',
        x: 20 + 20 * at,
        y: 30 + 20 * (at % 3),
        depth: 30 + 5 * (at % 3),
        from: formatTime(START),
      },
    ],
  })),
};

/** A spread of values that repeats nowhere near: one in 4,000 is the code of a broken sensor. */
const scatter = (at: number, probe: number): number => ((at * 7919 + probe * 104_729) % 4000) / 4000;

function writeSeason(directory: string): void {
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  createRegistry(database).sites.load(checkSiteFile('bench', SITE), START);
  const { keys, readings } = createArchive(database);
  database.transaction(() => {
    for (let at = 0; at < PLOT.days * PLOT.readingsPerDay; at += 1)
      for (const [probe, id] of probes.entries()) {
        const drawn = scatter(at, probe);
        const temperature = drawn === 0 ? 85 : 20 + Math.sin(at / 4000) + 0.2 * drawn;
        const humidity = 80 + 4 * Math.sin(at / 2500) + drawn;
        readings.put(keys.keyOf('bench-site', id), START + at * STEP_ms + MINUTE_ms, {
          temperature,
          humidity,
        });
      }
  })();
  database.close();
}

function bareOn(directory: string): () => Part[][] {
  const database = new Database(join(directory, 'sandlarder.db'), { readonly: true, fileMustExist: true });
  const keys = database.prepare('SELECT key FROM probe_key ORDER BY key').pluck().all() as number[];
  const parts = database
    .prepare(
      `SELECT (time - ${START}) / ${WIDTH_ms} AS part,
       min(temperature), max(temperature), min(humidity), max(humidity)
       FROM reading WHERE probe = ? AND time >= ? AND time < ? GROUP BY 1`,
    )
    .raw();
  const judged = database
    .prepare(
      `SELECT (hour - ${START}) / ${HOURS_WIDTH_ms} AS part, min(excess), max(excess)
       FROM judged_hour WHERE probe = ? AND hour >= ? AND hour < ? GROUP BY 1`,
    )
    .raw();
  return () =>
    keys.map((key) => {
      judged.all(key, START, END);
      return parts.all(key, START, END) as Part[];
    });
}

function bareAnswer(): BareAnswer {
  const before = threadTime_ms();
  const parts = bare();
  return { taken_ms: threadTime_ms() - before, parts };
}

const [, , directory = ''] = process.argv;
writeSeason(directory);
const { httpUrl } = await serve({
  settings: readServeSettings({ data: directory, listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0' }, {}),
  tellConsole: () => undefined,
  log: () => undefined,
});
const bare = bareOn(directory);
process.on('message', (word) => process.send?.(word === 'bare' ? bareAnswer() : threadTime_ms()));
process.once('disconnect', () => process.exit());
process.send?.(httpUrl);
