/**
 * A process that exports a bed as CSV, and reads the same readings with a bare SELECT. Rows a second of its processor
 * time: what else the machine does counts little.
 */
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../services/archive/index.js';
import { HOUR_ms, hourOf } from '../../services/core/model/time.js';
import { Calibrations } from '../../services/joining/calibrations.js';
import { Directory } from '../../services/joining/directory.js';
import { ExportDesk } from '../../services/joining/export-desk.js';
import { loadSite } from '../../services/load.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { PROBES, SITE, timeOf, valuesOf } from './a-long-table.js';
import type { BothSides } from './seasons.js';

const [directory = '.', text = '1000000'] = process.argv.slice(2);
const readings = Number(text);

loadSite(directory, 'site.json', SITE, Date.now());
const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
const archive = createArchive(database);
const registry = createRegistry(database);
fill();
const known = new Directory(registry.sites.descriptions(), (site, probe) => archive.keys.keyOf(site, probe));
const desk = new ExportDesk({
  ...{ archive, registry, calibrations: new Calibrations(registry), directory: () => known },
  program: 'Sandlarder bench',
});
const query = { beds: ['pit-b'], quantities: ['temperature', 'humidity'] } as const;

/** Readings, and what a watch would have made of each hour. */
function fill(): void {
  const keys = PROBES.map((id) => archive.keys.keyOf(SITE.site.id, id));
  database.transaction(() => {
    for (let line = 0; line < readings; line += 1) {
      const [temperature, humidity] = valuesOf(line);
      archive.readings.put(keys[line % PROBES.length] as number, timeOf(line), { temperature, humidity });
    }
    for (let hour = hourOf(timeOf(0)); hour < timeOf(readings); hour += HOUR_ms)
      for (const key of keys) archive.judged.put(key, { hour, expected: 21.25, band: 0.5, excess: 0.125 });
  })();
}

async function taken_s(work: () => void | Promise<void>): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

const every = database
  .prepare('SELECT probe, time, temperature, humidity FROM reading ORDER BY probe, time')
  .raw();

function bare(): void {
  let rows = 0;
  for (const _row of every.iterate()) rows += 1;
  if (rows !== readings) throw new Error(`expected ${readings} rows, got ${rows}`);
}

const LINE_END = 0x0a;

/** Each reading becomes two rows, and the header is one. */
async function check(): Promise<void> {
  let lines = 0;
  for await (const piece of await desk.rows(query, 'csv'))
    for (const byte of piece) if (byte === LINE_END) lines += 1;
  if (lines !== 2 * readings + 1) throw new Error(`expected ${2 * readings + 1} lines, got ${lines}`);
}

async function exported(): Promise<void> {
  let bytes = 0;
  for await (const piece of await desk.rows(query, 'csv')) bytes += piece.length;
  if (!(bytes > 0)) throw new Error('expected bytes, got none');
}

async function bothSides(): Promise<BothSides> {
  await check();
  bare();
  const [bare_s, ours_s] = [await taken_s(bare), await taken_s(exported)];
  return { bare: { value: readings / bare_s }, ours: { value: readings / ours_s } };
}

process.on('message', async () => process.send?.(await bothSides()));
process.once('disconnect', () => process.exit());
process.send?.('ready');
