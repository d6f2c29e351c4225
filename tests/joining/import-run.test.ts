import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { importTable } from '../../services/joining/import-run.js';
import { digestOf, openTable, RefusedFile } from '../../services/tables/import/index.js';
import { makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { NOW, openStation, type TestStation } from '../support/station.js';
import { LATEST, mappingWith, tableFile } from '../tables/import/a-table.js';

function stationWithSite(): TestStation {
  const station = openStation();
  station.load(siteOf(SHORT_SEASON));
  return station;
}

interface How {
  readonly map?: object;
  readonly again?: boolean;
  readonly onProgress?: () => void;
}

/** Imports a file; its refused lines stand beside it. */
async function take(station: TestStation, file: string, { map, again, ...rest }: How = {}) {
  const mapping = mappingWith({ probe: { column: 'probe' }, ...map });
  const refused = new RefusedFile(`${file}.refused.csv`);
  const parts = { ...station, mapping, refused, now: () => NOW, latest: LATEST, name: 'table.csv', ...rest };
  const [table, digest] = [await openTable(file, mapping), await digestOf(file, mapping)];
  return await importTable({ ...parts, table, digest }, again);
}

const row = (minute: number, temperature: number | string, probe = 'p01') =>
  `${new Date(SHORT_SEASON.startAt + minute * 60_000).toISOString()},${probe},${temperature},80`;
const HEADER = 'time,probe,T,RH';
const tableOf = (...rows: string[]) => tableFile([HEADER, ...rows, ''].join('\r\n'));

const refusedOf = (file: string): Record<string, string>[] =>
  existsSync(`${file}.refused.csv`)
    ? Papa.parse<Record<string, string>>(readFileSync(`${file}.refused.csv`, 'utf8'), {
        header: true,
        skipEmptyLines: true,
      }).data
    : [];

const stored = ({ database }: TestStation) =>
  database.prepare('SELECT * FROM reading ORDER BY probe, time').all();

describe('rows go by the rules of messages', () => {
  test('values are kept once; the same file again changes nothing', async () => {
    const station = stationWithSite();
    const file = tableOf(row(0, 20), row(1, 21), row(1, 21));
    expect(await take(station, file)).toMatchObject({
      isKnown: false,
      mark: { kept: 4, duplicates: 2, refused: 0, lines: 3 },
    });
    const before = stored(station);
    expect(await take(station, file)).toMatchObject({ isKnown: true, mark: { kept: 4 } });
    expect(await take(station, file, { again: true })).toMatchObject({ mark: { kept: 0, duplicates: 6 } });
    expect(stored(station)).toEqual(before);
    expect(existsSync(`${file}.refused.csv`)).toBe(false);
  });

  test('another value for the same time is set aside, in the quarantine and in the file', async () => {
    const station = stationWithSite();
    const file = tableOf(row(0, 20), row(0, 25));
    expect(await take(station, file)).toMatchObject({
      mark: { kept: 2, duplicates: 1, reasons: { 'value-conflict': 1 } },
    });
    expect(station.archive.quarantine.list(1)[0]).toMatchObject({
      reason: 'value-conflict',
      topic: 'import of table.csv',
    });
    expect(refusedOf(file)).toMatchObject([
      {
        line: '3',
        reason: 'value-conflict',
        detail: 'expected temperature 20, kept before for 2026-05-04T08:00:00Z, got 25',
      },
    ]);
  });

  test('what was measured before the first placement is set aside', async () => {
    const file = tableOf(row(-1, 20), row(0, 20));
    await take(stationWithSite(), file);
    expect(refusedOf(file)).toMatchObject([{ line: '2', reason: 'before-placement' }]);
  });

  test('a probe that no description knows is kept apart, and adopted when one does', async () => {
    const station = stationWithSite();
    expect(await take(station, tableOf(row(0, 20, 'p55')))).toMatchObject({ mark: { kept: 0, apart: 2 } });
    expect(station.archive.apart.list()).toMatchObject([{ site: 'test-ridge', probe: 'p55', readings: 1 }]);
  });

  test('a cell that a spreadsheet would take for a formula stands as text among refused lines', async () => {
    const file = tableOf('=HYPERLINK("x"),p01,1,2');
    await take(stationWithSite(), file);
    expect(refusedOf(file)[0]).toMatchObject({
      reason: 'quotes',
      text: expect.stringMatching(/^'=HYPERLINK/),
    });
  });
});

/** Long enough for water to be told. */
const WEEKS = { ...SHORT_SEASON, days: 12, rotFromDay: 11, wetFromDay: 8 };

describe('what follows from them', () => {
  test('a season from a table raises the alarms that it raises over MQTT', async () => {
    const { messages, site } = makeSeason(WEEKS);
    const live = openStation();
    live.load(site);
    live.commit(messages);
    live.settle();
    const rows = messages.map(({ topic, payload }) => {
      const [{ bt, v }, { v: humidity }] = JSON.parse(payload);
      return `${new Date(bt * 1000).toISOString()},${topic.split('/')[4]},${v},${humidity}`;
    });
    const station = stationWithSite();
    await take(station, tableOf(...rows));
    expect(station.station.dirty()).toHaveLength(1);
    expect(JSON.parse(station.alarmText())).toEqual([]);
    station.settle();
    expect(JSON.parse(station.alarmText()).length).toBeGreaterThan(0);
    expect(station.alarmText()).toBe(live.alarmText());
  });

  test('nothing is judged by the import itself, and another process finds what is to be judged', async () => {
    const station = stationWithSite();
    await take(station, tableOf(...Array.from({ length: 300 }, (_, at) => row(at * 10, 20))));
    const later = openStation({ directory: station.directory });
    later.station.refresh();
    expect(later.station.dirty().map(({ known }) => known.bed.id)).toEqual(['pit-t']);
    later.settle();
    expect(later.station.dirty()).toEqual([]);
    expect(later.station.watchers.get('pit-t')?.judgedTo).toBe(SHORT_SEASON.startAt + 49 * 3_600_000);
  });
});

describe('killed in the middle', () => {
  /** Some rows of each piece are refused, some are conflicts. */
  const rows = Array.from({ length: 20_000 }, (_, at) =>
    row(
      Math.floor(at / 2) + (at % 2) * 30_000,
      at % 700 === 5 ? 'warm' : 20 + (at % 7),
      at % 2 ? 'p02' : 'p03',
    ),
  ).concat(row(0, 99, 'p03'));

  test('it goes on from its mark, and all is as if it had gone through at once', async () => {
    const whole = stationWithSite();
    const file = tableOf(...rows);
    const through = await take(whole, file);
    const expected = { stored: stored(whole), refused: readFileSync(`${file}.refused.csv`, 'utf8') };

    const station = stationWithSite();
    for (let kill = 0; kill < 2; kill += 1)
      await expect(take(station, file, { onProgress: stopHere })).rejects.toThrow('killed');
    // What was written after the last mark, and torn.
    writeFileSync(`${file}.refused.csv`, '99999,T,torn', { flag: 'a' });
    const rest = await take(station, file);
    expect(rest.resumedAt).toBeGreaterThan(5_000);
    expect(rest.mark).toEqual(through.mark);
    expect(stored(station)).toEqual(expected.stored);
    expect(readFileSync(`${file}.refused.csv`, 'utf8')).toBe(expected.refused);
    expect(refusedOf(file)).toHaveLength(through.mark.refused);
  });

  test('where the file of refused lines is gone it begins anew, and nothing is doubled', async () => {
    const station = stationWithSite();
    const file = tableOf(...rows);
    await expect(take(station, file, { onProgress: stopHere })).rejects.toThrow('killed');
    writeFileSync(`${file}.refused.csv`, 'line,column,reason,detail,text\r\n');
    const rest = await take(station, file);
    expect(rest.resumedAt).toBeNull();
    expect(refusedOf(file)).toHaveLength(rest.mark.refused);
  });
});

function stopHere(): never {
  throw new Error('killed');
}

test('a file of refused lines takes the place of no other file', async () => {
  const file = tableOf(row(0, 'x'));
  writeFileSync(`${file}.refused.csv`, 'accounts of the farm');
  await expect(take(stationWithSite(), file)).rejects.toMatchObject({ code: 'WRONG_USAGE' });
  expect(readFileSync(`${file}.refused.csv`, 'utf8')).toBe('accounts of the farm');
});

test('it must be possible to write it', async () => {
  const file = tableOf(row(0, 'x'));
  const mapping = mappingWith({ probe: { column: 'probe' } });
  const station = stationWithSite();
  const refused = new RefusedFile(join(file, 'no', 'folder.csv'));
  const table = await openTable(file, mapping);
  const parts = {
    ...station,
    mapping,
    refused,
    table,
    digest: 'd',
    name: 'n',
    now: () => NOW,
    latest: LATEST,
  };
  await expect(importTable(parts)).rejects.toThrow('expected a file that can be written');
  expect(station.archive.imports.get('d')).toBeUndefined();
});
