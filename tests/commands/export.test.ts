/** `sandlarder export` into a folder, from the data directory of a service that may run. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type ExportFlags, exportReadings } from '../../services/commands/export/export.js';
import { temporaryDirectory } from '../support/open.js';
import { openExport } from '../tables/export/an-export.js';

async function run(data: string, flags: Partial<ExportFlags>): Promise<string[]> {
  const said: string[] = [];
  await exportReadings({ data, format: 'csv', out: 'unused', ...flags }, (line) => void said.push(line));
  return said;
}

const contents = (folder: string) =>
  Object.fromEntries(
    readdirSync(folder).map((name) => [name, readFileSync(join(folder, name)).toString('base64')]),
  );

describe('an export', () => {
  test('is the same twice, byte for byte, and says what it wrote', async () => {
    const { directory, bytes } = openExport();
    const [one, other] = [join(temporaryDirectory(), 'a', 'b'), temporaryDirectory()];
    const said = await run(directory, { bed: 'pit-t', out: one });
    await run(directory, { beds: 'pit-t', out: other });
    await run(directory, { beds: 'pit-t', out: other });
    expect(readdirSync(one).sort()).toEqual([
      ...['calibrations.json', 'citation.txt', 'datapackage.json', 'readings.csv', 'readings.schema.json'],
    ]);
    expect(contents(other)).toEqual(contents(one));
    const rows = readFileSync(join(one, 'readings.csv'));
    expect(rows.equals(await bytes())).toBe(true);
    const digest = createHash('sha256').update(rows).digest('hex');
    expect(said[1]).toBe(`readings: ${rows.length} bytes, SHA-256 ${digest}`);
    expect(readFileSync(join(one, 'datapackage.json'), 'utf8')).toContain(`"hash": "sha256:${digest}"`);
    expect(said[2]).toContain('stands in no file');
  });

  test('of nothing measured says that there is nothing, and only then', async () => {
    const { directory } = openExport();
    const out = temporaryDirectory();
    const never = { from: '2020-01-01T00:00:00Z', to: '2020-01-02T00:00:00Z' };
    expect(await run(directory, { bed: 'pit-t', out, ...never })).toContainEqual(
      expect.stringMatching(/^no readings: /),
    );
    expect(await run(directory, { bed: 'pit-t', out, again: true })).not.toContainEqual(
      expect.stringMatching(/^no readings: /),
    );
  });

  test('of another selection leaves what is in the folder, unless it is asked for', async () => {
    const { directory } = openExport();
    const out = temporaryDirectory();
    await run(directory, { bed: 'pit-t', out });
    const before = contents(out);
    const other = { bed: 'pit-t', out, quantities: 'humidity' };
    await expect(run(directory, other)).rejects.toThrow(
      /^--out: expected a folder without another export, got .*"Quantities: temperature, humidity"; --again/,
    );
    expect(contents(out)).toEqual(before);
    const parquet = { bed: 'pit-t', out, format: 'parquet' };
    await expect(run(directory, parquet)).rejects.toThrow(/which holds .*readings\.csv, .*--again writes/);
    expect(contents(out)).toEqual(before);
    await run(directory, { ...other, again: true });
    expect(contents(out)).not.toEqual(before);
    await run(directory, { ...parquet, again: true });
    expect(existsSync(join(out, 'readings.csv'))).toBe(false);
  });

  test('is Parquet where that is asked for', async () => {
    const { directory, bytes } = openExport();
    const out = temporaryDirectory();
    const [json = ''] = await run(directory, { site: 'test-ridge', format: 'parquet', out, json: true });
    const file = readFileSync(join(out, 'readings.parquet'));
    expect(file.equals(await bytes({ beds: undefined, site: 'test-ridge' }, 'parquet'))).toBe(true);
    expect(JSON.parse(json)).toMatchObject({ bytes: file.length, folder: out });
  });

  test.each([
    [{}, 'expected one of --bed, --beds, --site and --trial, got none'],
    [{ bed: 'pit-t', site: 'test-ridge' }, 'got --bed and --site'],
    [{ bed: 'pit-t', format: 'xlsx' }, '--format: expected csv or parquet, got "xlsx"'],
    [{ bed: 'pit-t', from: 'yesterday' }, '--from: expected an RFC 3339 time'],
    [{ bed: 'pit-t', quantities: 'warmth' }, '--quantities: expected some of temperature'],
    [{ bed: 'pit-x' }, 'no bed has the id "pit-x"'],
    [{ trial: 'none' }, 'no trial has the id "none"'],
  ])('%o is refused, and nothing is made', async (flags, message) => {
    const { directory } = openExport();
    const out = join(temporaryDirectory(), 'out');
    await expect(run(directory, { ...flags, out })).rejects.toThrow(message);
    expect(existsSync(out)).toBe(false);
  });

  test('is refused where there is no database, or no folder can be made', async () => {
    await expect(run(temporaryDirectory(), { bed: 'pit-t' })).rejects.toThrow('expected the database');
    const { directory } = openExport();
    const file = join(temporaryDirectory(), 'file');
    writeFileSync(file, '');
    await expect(run(directory, { bed: 'pit-t', out: join(file, 'out') })).rejects.toThrow(
      '--out: expected a folder',
    );
    await expect(run(directory, { bed: 'pit-t', out: '/proc/x/y' })).rejects.toThrow(
      /^--out: expected a folder that is there or can be made at .*, got a file system that takes no new folder$/,
    );
  });
});
