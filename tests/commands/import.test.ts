/** `sandlarder import` over a data directory, with and without a service on it. */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { lockDirectory } from '../../services/archive/index.js';
import { type ImportFlags, importFile } from '../../services/commands/import/import.js';
import { loadSite } from '../../services/load.js';
import { temporaryDirectory } from '../support/open.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { tableFile } from '../tables/import/a-table.js';

const TABLE = [
  'Date;Time;Logger;T',
  '04/05/2026;10:00;p01;21,4',
  '04/05/2026;10:10;p01;21,5',
  '04/05/2026;10:20;p77;21,6',
  '04/05/2026;25:00;p01;21,7',
].join('\r\n');

const FLAGS = {
  ...{ site: 'test-ridge', time: ['Date', 'Time'], timeFormat: 'dd/MM/yyyy HH:mm', zone: 'Africa/Lusaka' },
  ...{ probeColumn: 'Logger', value: ['T=temperature:°C'], decimal: ',' },
};

async function run(data: string, file: string, flags: Partial<ImportFlags> = {}): Promise<string[]> {
  const said: string[] = [];
  await importFile(file, { data, ...FLAGS, ...flags }, (line) => void said.push(line));
  return said;
}

function directoryWithSite(): string {
  const data = temporaryDirectory();
  loadSite(data, 'site.json', siteOf(SHORT_SEASON), Date.now());
  return data;
}

describe('a dry run', () => {
  test('shows what it understood, and writes nothing, also beside a service', async () => {
    const data = directoryWithSite();
    onTestFinished(lockDirectory(data));
    const file = tableFile(TABLE);
    const said = await run(data, file, { dryRun: true });
    for (const line of [
      'separator ;, decimal ,, 4 columns, rows from line 2',
      'time: Date and Time, as dd/MM/yyyy HH:mm, in Africa/Lusaka',
      '  line 2: p01 at 2026-05-04T08:00:00Z: temperature 21.4 °C',
      '4 lines, of which 0 lines without a value',
      '  p01: 2 readings, 2026-05-04T08:00:00Z to 2026-05-04T08:10:00Z, mostly every 10 min',
      'refused: 1 (time-unreadable 1)',
      'nothing was written',
    ])
      expect(said).toContain(line);
    expect(said.find((line) => line.startsWith('  p77'))).toContain('no site description knows it');
    expect(existsSync(`${file}.refused.csv`)).toBe(false);
    expect(await run(data, file, { dryRun: true, json: true })).toMatchObject([
      expect.stringContaining('"isKnown":false'),
    ]);
  });

  test('foresees what the run sets aside, also of what the file itself contradicts', async () => {
    const data = directoryWithSite();
    const file = tableFile(
      [
        'Date;Time;Logger;T',
        '03/05/2026;10:00;p01;21,4',
        ...['21,5', '21,6', '21,5'].map((value) => `04/05/2026;10:10;p01;${value}`),
        ...['20,1', '20,1', '20,2'].map((value) => `04/05/2026;10:20;p77;${value}`),
      ].join('\r\n'),
    );
    const of = (lines: readonly string[], part: string) => lines.filter((line) => line.includes(part));
    const foreseen = await run(data, file, { dryRun: true });
    const refused = 'refused: 3 (before-placement 1, value-conflict 2)';
    expect(foreseen).toContain('it would keep 1 value; 2 values would be there before, 1 kept apart');
    expect(foreseen).toContain(refused);
    expect(of(foreseen, "expected a time at or after the probe's first placement")).toHaveLength(1);
    const done = await run(data, file);
    expect(done).toContain(refused);
    expect(of(done, '1 value kept, 2 values there before')).toHaveLength(1);
    const again = await run(data, file, { dryRun: true });
    expect(again).toContain('it would keep 0 values; 4 values would be there before, 0 kept apart');
    expect(again).toContain(refused);
    const [json = ''] = await run(data, file, { dryRun: true, json: true });
    expect(JSON.parse(json)).toMatchObject({ foreseen: { kept: 0, duplicates: 4, apart: 0 }, refused: 3 });
  });

  test('makes no data directory', async () => {
    const data = join(temporaryDirectory(), 'none');
    await run(data, tableFile(TABLE), { dryRun: true });
    expect(existsSync(data)).toBe(false);
  });
});

describe('an import', () => {
  test('says what was kept, what was refused and where, and what is to be judged', async () => {
    const data = directoryWithSite();
    const file = tableFile(TABLE);
    const said = await run(data, file);
    expect(said.slice(-5)).toEqual([
      '4 lines, 0 lines without a value: 2 values kept, 0 values there before',
      '1 value of probes that no site description knows kept apart, until it does',
      'refused: 1 (time-unreadable 1)',
      `refused lines with their reasons: ${file}.refused.csv`,
      'to be judged again by "sandlarder serve": pit-t',
    ]);
    expect((await run(data, file)).join()).toContain('nothing was changed');
    const [json = ''] = await run(data, file, { json: true });
    expect(JSON.parse(json)).toMatchObject({ isKnown: true, kept: 2, apart: 1, refused: 1, judgedLater: [] });
  });

  test('is refused beside a service, with what to do', async () => {
    const data = directoryWithSite();
    onTestFinished(lockDirectory(data));
    await expect(run(data, tableFile(TABLE))).rejects.toMatchObject({
      code: 'CONFLICT',
      message: expect.stringContaining('stop it, import, and start it again'),
    });
  });

  test('leaves the directory to the next, also when it fails', async () => {
    const data = directoryWithSite();
    const file = tableFile(TABLE);
    writeFileSync(`${file}.refused.csv`, 'something else');
    await expect(run(data, file)).rejects.toMatchObject({ code: 'WRONG_USAGE' });
    await expect(run(data, file, { refused: file })).rejects.toThrow('expected another file');
    expect(await run(data, file, { refused: `${file}.other.csv` })).toContain(
      `refused lines with their reasons: ${file}.other.csv`,
    );
  });
});
