/** `kill -9` while real commands import, back up and restore. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { expect, test, vi } from 'vitest';
import { ARCHIVE_SCHEMA, lookOver, openForReading } from '../../services/archive/index.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { temporaryDirectory } from '../support/open.js';
import { run, start } from '../support/processes.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';

const LINES = 40_000;
const WRONG_EVERY = 800;
const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];

const database = (directory: string): string => join(directory, 'sandlarder.db');

function table(directory: string): string {
  const file = join(directory, 'table.csv');
  const rows = Array.from({ length: LINES }, (_, at) => {
    const time = new Date(SHORT_SEASON.startAt + at * 60_000).toISOString();
    return `${time},${at % WRONG_EVERY === 0 ? 'warm' : 20 + (at % 7)}`;
  });
  writeFileSync(file, ['time,T', ...rows, ''].join('\n'));
  return file;
}

/** Of the import: lines by its mark, and readings. */
function progress(directory: string): { readonly lines: number; readonly readings: number } {
  const opened = openForReading(directory, []);
  const [mark, readings] = [
    opened.prepare('SELECT mark FROM import_mark').pluck().get() as string | undefined,
    opened.prepare('SELECT count(*) FROM reading').pluck().get() as number,
  ];
  opened.close();
  return { lines: mark === undefined ? 0 : JSON.parse(mark).lines, readings };
}

const rowsOf = (file: string, name: string): number | undefined => {
  const { problems, tables } = lookOver(file, PARTS);
  expect(problems).toEqual([]);
  return tables.find((one) => one.table === name)?.rows;
};

const until = (holds: () => boolean): Promise<void> =>
  vi.waitFor(() => expect(holds()).toBe(true), { timeout: 60_000, interval: 5 });

test('nothing is lost or doubled, and what was there stays whole', async () => {
  const directory = temporaryDirectory();
  const site = join(directory, 'site.json');
  writeFileSync(site, JSON.stringify(siteOf(SHORT_SEASON)));
  expect(await run(['load', site, '--data', directory])).toMatchObject({ code: 0 });

  const file = table(directory);
  const columns = ['--site', 'test-ridge', '--time', 'time', '--time-format', 'iso', '--probe', 'p01'];
  const command = ['import', file, '--data', directory, ...columns, '--value', 'T=temperature:°C'];
  const importing = start(command);
  await until(() => progress(directory).lines > 0);
  await importing.kill();
  const cut = progress(directory);
  expect(cut.readings).toBe(cut.lines - Math.ceil(cut.lines / WRONG_EVERY));
  const resumed = await run(command);
  expect(resumed).toMatchObject({ code: 0 });
  if (cut.lines < LINES) expect(resumed.stdout).toContain(`went on from line ${cut.lines + 2}`);
  const whole = { lines: LINES, readings: LINES - LINES / WRONG_EVERY };
  expect(progress(directory)).toEqual(whole);
  const { data } = Papa.parse(readFileSync(`${file}.refused.csv`, 'utf8'), {
    header: true,
    skipEmptyLines: true,
  });
  expect(data).toHaveLength(LINES / WRONG_EVERY);

  const copy = join(temporaryDirectory(), 'copy.db');
  const backup = ['backup', '--data', directory, '--to', copy];
  const backingUp = start(backup);
  await until(() => existsSync(`${copy}.unfinished`) || existsSync(copy));
  await backingUp.kill();
  expect(rowsOf(database(directory), 'reading')).toBe(whole.readings);
  if (!existsSync(copy)) {
    const refused = await run(backup);
    expect(refused).toMatchObject({
      code: 1,
      stderr: expect.stringContaining('or one was cut off; remove it'),
    });
    rmSync(`${copy}.unfinished`);
    expect(await run(backup)).toMatchObject({ code: 0 });
  }
  expect(rowsOf(copy, 'reading')).toBe(whole.readings);

  const other = temporaryDirectory();
  expect(await run(['load', site, '--data', other])).toMatchObject({ code: 0 });
  const restore = ['restore', copy, '--data', other];
  const restoring = start(restore);
  await until(() => existsSync(`${database(other)}.restoring`) || rowsNow(other) > 0);
  await restoring.kill();
  expect([0, whole.readings]).toContain(rowsOf(database(other), 'reading'));
  expect(await run(restore)).toMatchObject({ code: 0 });
  expect(rowsOf(database(other), 'reading')).toBe(whole.readings);
  expect(existsSync(`${database(other)}.restoring`)).toBe(false);
}, 180_000);

function rowsNow(directory: string): number {
  const opened = openForReading(directory, []);
  const rows = opened.prepare('SELECT count(*) FROM reading').pluck().get() as number;
  opened.close();
  return rows;
}
