/**
 * A process that takes a table in, and reads the same file with csv-parse alone and writes the same rows with SQLite
 * alone. Rows a second of its processor time: what else the machine does counts little.
 */
import { createReadStream } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse';
import { importTable } from '../../services/joining/import-run.js';
import { latestTime, openImportStation } from '../../services/joining/import-station.js';
import { loadSite } from '../../services/load.js';
import { digestOf, openTable, RefusedFile, readMapping } from '../../services/tables/import/index.js';
import { MAPPING, PROBES, SITE, timeOf, valuesOf, writeTable } from './a-long-table.js';
import type { BothSides } from './seasons.js';

const [directory = '.', text = '1000000'] = process.argv.slice(2);
const lines = Number(text);
const file = join(directory, 'table.csv');

/** Growth of memory from a table to one of three times its length: flat, give or take what is measured. */
const GOAL_GROWTH = 1.2;
const GOAL_s = 60;

async function taken_s(work: () => Promise<void>): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

async function bareParse(): Promise<void> {
  let rows = 0;
  for await (const _row of createReadStream(file).pipe(parse({ delimiter: ';' }))) rows += 1;
  if (rows !== lines + 1) throw new Error(`expected ${lines + 1} records, got ${rows}`);
}

async function bareInserts(): Promise<void> {
  const database = new Database(join(directory, 'bare.db'));
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  database.exec(
    'CREATE TABLE reading (probe INTEGER NOT NULL, time INTEGER NOT NULL, temperature REAL, humidity REAL, PRIMARY KEY (probe, time)) STRICT, WITHOUT ROWID',
  );
  const insert = database.prepare('INSERT INTO reading VALUES (?, ?, ?, ?)');
  const some = database.transaction((from: number, to: number) => {
    for (let line = from; line < to; line += 1)
      insert.run(line % PROBES.length, timeOf(line), ...valuesOf(line));
  });
  for (let from = 0; from < lines; from += 20_000) some(from, Math.min(lines, from + 20_000));
  database.close();
}

/** @returns the most memory in use, bytes */
async function importOf(name: string, expected: number): Promise<number> {
  const data = join(directory, name);
  loadSite(data, 'site.json', SITE, Date.now());
  const mapping = readMapping('map', MAPPING);
  const table = await openTable(file, mapping);
  const { station, takeIn, close } = openImportStation(data, Date.now);
  let most_bytes = 0;
  const { mark } = await importTable({
    ...{ station, takeIn, table, mapping, digest: await digestOf(file, mapping), name },
    ...{
      refused: new RefusedFile(join(directory, 'refused.csv')),
      now: Date.now,
      latest: latestTime(Date.now()),
    },
    onProgress: () => {
      most_bytes = Math.max(most_bytes, process.memoryUsage().rss);
    },
  });
  close();
  if (mark.kept !== 2 * expected || mark.refused !== 0)
    throw new Error(`expected ${2 * expected} values kept, got ${mark.kept}, and ${mark.refused} refused`);
  return most_bytes;
}

async function bothSides(): Promise<BothSides> {
  writeTable(file, lines);
  const parse_s = await taken_s(bareParse);
  const inserts_s = await taken_s(bareInserts);
  let once_bytes = 0;
  const began = performance.now();
  const ours_s = await taken_s(async () => {
    once_bytes = await importOf('once', lines);
  });
  const elapsed_s = (performance.now() - began) / 1000;
  writeTable(file, 3 * lines);
  const thrice_bytes = await importOf('thrice', 3 * lines);
  return {
    bare: {
      value: lines / (parse_s + inserts_s),
      note: `reading ${parse_s.toFixed(1)} s, inserts ${inserts_s.toFixed(1)} s`,
    },
    ours: {
      value: lines / ours_s,
      note: `${elapsed_s.toFixed(1)} s by the clock, ${Math.round(once_bytes / 2 ** 20)} MiB`,
      figures: [
        {
          name: 'a million lines, by the clock',
          value: (1e6 * elapsed_s) / lines,
          unit: 's',
          goal: GOAL_s,
        },
        {
          name: 'memory of three times the lines against once',
          value: thrice_bytes / once_bytes,
          unit: '',
          goal: GOAL_GROWTH,
        },
      ],
    },
  };
}

process.on('message', async () => process.send?.(await bothSides()));
process.once('disconnect', () => process.exit());
process.send?.('ready');
