import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { ByteText } from '../../../services/tables/export/byte-text.js';
import type { ExportChunk, ExportQuantity } from '../../../services/tables/export/chunk.js';
import { csvOf } from '../../../services/tables/export/csv-writer.js';
import { textCell } from '../../../services/tables/text-cell.js';
import { bytesOf } from './an-export.js';

const AT = Date.UTC(2026, 4, 4, 8);

const column = (raw: (number | null)[], rest: Partial<ExportQuantity> = {}): ExportQuantity => ({
  ...{ quantity: 'temperature', unit: 'Cel', raw, corrected: raw, uncertainty: null, flags: null },
  ...{ judged: null, spread: null, ...rest },
});

const chunk = (rest: Partial<ExportChunk>): ExportChunk => ({
  place: { site: 'ridge', bed: 'pit-a', probe: 'p01', position: { x: 75, y: 40.5, depth: 30 } },
  ...{ treatment: null, of: 'reading', time: [AT], quantities: [column([21.4])], ...rest },
});

const textOf = async (...chunks: ExportChunk[]): Promise<string> =>
  (await bytesOf(csvOf(chunks))).toString('utf8');
const linesOf = async (...chunks: ExportChunk[]): Promise<string[]> =>
  (await textOf(...chunks)).split('\r\n').slice(1, -1);
const rowsOf = async (...chunks: ExportChunk[]) =>
  Papa.parse<Record<string, string>>(await textOf(...chunks), { header: true, skipEmptyLines: true }).data;

describe('numbers in bytes', () => {
  const written = (value: number): string => {
    const text = new ByteText(64);
    text.number(value);
    return text.take().toString();
  };

  test.each([
    0,
    -0,
    1,
    -1,
    9,
    10,
    99,
    100,
    0.1,
    0.05,
    -0.5,
    21.4,
    80.123,
    999_999_999,
    1e9,
    1e21,
    1e-7,
    0.1 + 0.2,
    5e-324,
  ])('%s is written as it reads', (value) => expect(written(value)).toBe(String(value)));

  test('as String does, whatever they are', () => {
    const numbers = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: -1e6, max: 1e6 }).map((value) => value / 1000),
      fc.integer({ min: -1e12, max: 1e12 }).map((value) => value / 1000),
    );
    fc.assert(
      fc.property(numbers, (value) => written(value) === String(value)),
      { seed: 3, numRuns: 2000 },
    );
  });
});

describe('rows', () => {
  test('say everything of a reading', async () => {
    const judged = { expected: 20.5, band: 0.4, excess: 0.9 };
    const full = column([21.4], {
      corrected: [21.25],
      uncertainty: [0.1],
      flags: ['spike;outside'],
      judged: [judged],
    });
    expect(await linesOf(chunk({ quantities: [full] }))).toEqual([
      '2026-05-04T08:00:00Z,ridge,pit-a,,p01,75,40.5,30,temperature,Cel,reading,21.4,21.25,0.1,spike;outside,20.5,0.4,0.9,,,',
    ]);
  });

  test('are left out where nothing was measured, and empty where nothing is known', async () => {
    const time = [AT, AT + 59_000, AT + 3_600_500];
    const wet = column([80, null, 81], { quantity: 'humidity', unit: '%RH', corrected: null });
    expect(await linesOf(chunk({ time, quantities: [column([null, -0.5, null]), wet] }))).toEqual([
      '2026-05-04T08:00:00Z,ridge,pit-a,,p01,75,40.5,30,humidity,%RH,reading,80,80,,,,,,,,',
      '2026-05-04T08:00:59Z,ridge,pit-a,,p01,75,40.5,30,temperature,Cel,reading,-0.5,-0.5,,,,,,,,',
      '2026-05-04T09:00:00.500Z,ridge,pit-a,,p01,75,40.5,30,humidity,%RH,reading,81,81,,,,,,,,',
    ]);
  });

  test('of the shade have no bed and no position; of hours they have their spread', async () => {
    const place = { site: 'ridge', bed: null, probe: 'p09', position: null };
    const spread = { count: [6], least: [20.9], greatest: [22] };
    expect(await linesOf(chunk({ place, of: 'hour', quantities: [column([21.5], { spread })] }))).toEqual([
      '2026-05-04T08:00:00Z,ridge,,,p09,,,,temperature,Cel,hour,21.5,21.5,,,,,,6,20.9,22',
    ]);
  });

  test.each([
    ['with, comma', 'with, comma'],
    ['said "so"', 'said "so"'],
    ['two\r\nlines', 'two\r\nlines'],
    ['nyanja ŵ', 'nyanja ŵ'],
    ['=1+1', "'=1+1"],
    ['@sum', "'@sum"],
    ['-cold', "'-cold"],
    ['\tx', "'\tx"],
  ])('a treatment %j is read by another parser as %j', async (treatment, read) => {
    expect((await rowsOf(chunk({ treatment })))[0]).toMatchObject({
      treatment: read,
      raw: '21.4',
      greatest: '',
    });
  });

  test('a negative number is a number, not a formula', async () => {
    expect((await rowsOf(chunk({ quantities: [column([-3.5])] })))[0]?.['raw']).toBe('-3.5');
    expect(textCell('a=b')).toBe('a=b');
  });

  test('of many chunks follow each other, also where one is longer than the room', async () => {
    const time = Array.from({ length: 9000 }, (_, at) => AT + at * 1000);
    const rows = await rowsOf(chunk({ time, quantities: [column(time.map((at) => at % 97))] }), chunk({}));
    expect(rows).toHaveLength(9001);
    for (const at of [0, 4000, 8999])
      expect(rows[at]).toMatchObject({ raw: String((time[at] as number) % 97) });
    expect(rows[8999]?.['time']).toBe('2026-05-04T10:29:59Z');
  });

  test('an empty export is a header', async () => {
    expect(await textOf()).toMatch(/^time,site,.*,greatest\r\n$/);
  });
});
