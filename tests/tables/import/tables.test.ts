import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { openTable } from '../../../services/tables/import/open-table.js';
import { readRecords } from '../../../services/tables/import/records.js';
import { surveyTable } from '../../../services/tables/import/survey.js';
import { linesOf, mappingWith, readTable, reasonsOf, tableFile } from './a-table.js';

const TWO = [
  '2 p01 08:00 {"temperature":21.4,"humidity":80}',
  '3 p01 09:00 {"temperature":21.5,"humidity":81}',
];

describe('a table is read whatever program wrote it', () => {
  const rows = (separator: string, end: string, decimal = '.') =>
    [
      ['time', 'T', 'RH'],
      ['2026-05-04T08:00:00Z', `21${decimal}4`, '80'],
      ['2026-05-04T09:00:00Z', `21${decimal}5`, '81'],
    ]
      .map((row) => row.join(separator))
      .join(end);

  test.each([
    ['comma and LF', rows(',', '\n'), {}],
    ['comma and CR LF, with a last line end', `${rows(',', '\r\n')}\r\n`, {}],
    ['CR alone', rows(',', '\r'), {}],
    ['a byte order mark', `\uFEFF${rows(',', '\n')}`, {}],
    ['semicolon and decimal comma', rows(';', '\r\n', ','), { decimal: ',' }],
    ['tab', rows('\t', '\n'), {}],
    [
      'comma and decimal comma in quotes',
      rows(',', '\n').replaceAll(/21\.(\d)/g, '"21,$1"'),
      { decimal: ',' },
    ],
    ['blanks around', rows(' , ', '\n'), {}],
    ['all in quotes', rows(',', '\n').replaceAll(/[^,\n]+/g, '"$&"'), {}],
  ])('%s', async (_how, text, rest) => {
    const read = await readTable(text, rest);
    expect(reasonsOf(read)).toEqual([]);
    expect(linesOf(read)).toEqual(TWO);
  });

  test('Latin-1, with names that are not ASCII', async () => {
    const text = Buffer.from('time;T °C\n2026-05-04T08:00:00Z;21\n', 'latin1');
    const values = [{ column: 'T °C', quantity: 'temperature', unit: '°C' }];
    expect(linesOf(await readTable(text, { encoding: 'latin1', values }))).toHaveLength(1);
    await expect(readTable(text, { values })).rejects.toThrow('expected a column "T °C"');
  });

  test('lines before the header, no header, and columns by number', async () => {
    const before = 'Logger 7;made up\r\n\r\ntime;T;RH\r\n2026-05-04T08:00:00Z;21.4;80';
    expect(linesOf(await readTable(before, { skip: 2 }))).toEqual([
      '4 p01 08:00 {"temperature":21.4,"humidity":80}',
    ]);
    const values = [{ column: '#3', quantity: 'humidity', unit: 'ratio' }];
    const bare = '2026-05-04T08:00:00Z,x,0.8\n';
    const read = await readTable(bare, { header: false, separator: ',', time: { column: '#1' }, values });
    expect(linesOf(read)).toEqual(['1 p01 08:00 {"humidity":80}']);
  });
});

describe('columns become readings', () => {
  test('wide: a column a probe', async () => {
    const values = ['p01', 'p02'].map((probe) => ({
      column: probe,
      quantity: 'temperature',
      unit: '°F',
      probe,
    }));
    const read = await readTable(
      'time,p01,p02\n2026-05-04T08:00:00Z,68,\n2026-05-04T09:00:00Z,,50\n2026-05-04T10:00:00Z,,\n',
      {
        ...{ values, probe: undefined },
      },
    );
    expect(linesOf(read)).toEqual(['2 p01 08:00 {"temperature":20}', '3 p02 09:00 {"temperature":10}']);
    expect(read).toMatchObject({ empty: 1, refused: [] });
  });

  test('long: probe and quantity in columns', async () => {
    const where = (is: string) => ({ column: 'what', is });
    const read = await readTable(
      'time,who,what,v\n2026-05-04T08:00:00Z,Logger 1,temp,293.15\n2026-05-04T08:00:00Z,Logger 1,hum,80\n2026-05-04T08:00:00Z,Logger 1,light,9\n',
      {
        probe: { column: 'who', names: { 'Logger 1': 'p01' } },
        values: [
          { column: 'v', quantity: 'temperature', unit: 'K', where: where('temp') },
          { column: 'v', quantity: 'humidity', unit: '%RH', where: where('hum') },
        ],
      },
    );
    expect(linesOf(read)).toEqual(['2 p01 08:00 {"temperature":20}', '3 p01 08:00 {"humidity":80}']);
    expect(read.empty).toBe(1);
  });

  test('batteries in volts and in per cent, and words for nothing', async () => {
    const values = [
      { column: 'V', quantity: 'battery', unit: 'V' },
      { column: 'L', quantity: 'battery', unit: '%EL' },
    ];
    const read = await readTable('time,V,L\n2026-05-04T08:00:00Z,3.1,NA\n', { values, missing: ['NA'] });
    expect(linesOf(read)).toEqual(['2 p01 08:00 {"battery":3.1}']);
  });
});

describe('what is not taken is named with its line and reason', () => {
  test.each([
    ['2026-05-04T08:00:00Z,21.4', '2  columns'],
    ['2026-05-04T08:00:00Z,21.4,80,9', '2  columns'],
    ['yesterday,21.4,80', '2 time time-unreadable'],
    ['2026-05-04T08:00:00Z,"21,4",80', '2 T value-unreadable'],
    ['2026-05-04T08:00:00Z,0x10,80', '2 T value-unreadable'],
    ['2026-05-04T08:00:00Z,NaN,80', '2 T value-unreadable'],
    ['2026-05-04T08:00:00Z,Infinity,80', '2 T value-unreadable'],
    ['2026-05-04T08:00:00Z,1e999,80', '2 T value-out-of-range'],
    ['2026-05-04T08:00:00Z,-274,80', '2 T value-out-of-range'],
    ['2026-05-04T08:00:00Z,21.4 °C,80', '2 T value-unreadable'],
    ['2026-05-04T08:00:00Z,21.4,131', '2 RH value-out-of-range'],
  ])('%s', async (line, reason) => {
    const read = await readTable(`time,T,RH\n${line}\n2026-05-04T09:00:00Z,21.5,81\n`);
    expect(reasonsOf(read)).toEqual([reason]);
    expect(linesOf(read).at(-1)).toBe(TWO[1]);
  });

  test('a good value beside a bad one is kept', async () => {
    const read = await readTable('time,T,RH\n2026-05-04T08:00:00Z,warm,80\n');
    expect(linesOf(read)).toEqual(['2 p01 08:00 {"humidity":80}']);
  });

  test('a probe that is no id, and one that the mapping does not name', async () => {
    const text = 'time,T,RH,P\n2026-05-04T08:00:00Z,1,2,P 1\n2026-05-04T08:00:00Z,1,2,constructor\n';
    expect(reasonsOf(await readTable(text, { probe: { column: 'P' } }))).toEqual(['2 P probe-unreadable']);
    const named = { probe: { column: 'P', names: { 'P 1': 'p01' } } };
    expect(reasonsOf(await readTable(text, named))).toEqual(['3 P probe-unreadable']);
  });
});

describe('broken quotes cost one line', () => {
  const sound = (hour: number) => `2026-05-04T${String(hour).padStart(2, '0')}:00:00Z,21,80`;

  test.each([
    ['text after a quoted field', '2026-05-04T08:00:00Z,"2"x,80'],
    ['a quote within a bare field', '2026-05-04T08:00:00Z,2" 1,80'],
    ['a quote that is never closed', '2026-05-04T08:00:00Z,"21,80'],
    ['a field that never ends', `"${'x'.repeat(100_000)}`],
  ])('%s', async (_what, broken) => {
    const lines = ['time,T,RH', sound(7), broken, sound(9), sound(10)];
    const read = await readTable(lines.join('\r\n'));
    expect(reasonsOf(read)).toEqual(['3  quotes']);
    expect(read.readings.map(({ line }) => line)).toEqual([2, 4, 5]);
  });

  test('line ends within quotes are counted', async () => {
    const lines = ['time,T,RH,"a\r\nnote"', `${sound(7)},"one\r\ntwo\nthree"`, `${sound(8)},`, 'x,1,2,'];
    const read = await readTable(lines.join('\r\n'));
    expect(read.readings.map(({ line }) => line)).toEqual([3, 6]);
    expect(reasonsOf(read)).toEqual(['7 time time-unreadable']);
  });

  test('a file that is full of them is given up', async () => {
    const text = ['time,T,RH', ...Array.from({ length: 400 }, () => '2026-05-04T08:00:00Z,"2"x,80')].join(
      '\n',
    );
    await expect(readTable(text)).rejects.toMatchObject({ code: 'LIMIT_EXCEEDED' });
  });
});

describe('records can be read on from where a piece ended', () => {
  test('with the same records, wherever that is', async () => {
    const rows = Array.from(
      { length: 4000 },
      (_, at) => `2026-05-04T08:00:00Z,${at % 50}${at % 900 === 7 ? '"' : ''},"é ${at}"`,
    );
    const file = tableFile(`\uFEFF${['time,T,RH', ...rows].join('\r\n')}`);
    const table = await openTable(file, mappingWith());
    const digest = async (from = table.rows) => {
      const all: string[] = [];
      const places = [from];
      for await (const { records, next } of readRecords(file, table, from)) {
        all.push(...records.map((record) => JSON.stringify(record)));
        places.push(next);
      }
      return { all, places };
    };
    const { all, places } = await digest();
    expect(all).toHaveLength(4000);
    expect(places.length).toBeGreaterThan(4);
    for (const place of places.slice(1)) {
      const rest = (await digest(place)).all;
      expect(createHash('md5').update(rest.join()).digest('hex')).toBe(
        createHash('md5')
          .update(all.slice(4000 - rest.length).join())
          .digest('hex'),
      );
      expect(rest.length).toBe(4000 - (place.line - 2));
    }
  });
});

describe('a file that is no such table', () => {
  test.each([
    ['nothing', '', 'expected a column "time", got nothing'],
    ['another header', 'a,b\n1,2\n', 'expected a column "time", got "a", "b"'],
    ['a column less', 'time,T\n', 'expected a column "RH", got "time", "T" (separated by ,)'],
    ['a column twice', 'time,T,RH,T\n', 'got 2 of that name: say which by its number, such as #2'],
    ['UTF-16', Buffer.from('\uFEFFtime,T,RH\n', 'utf16le'), 'got UTF-16'],
    ['no text', Buffer.from([80, 75, 3, 4, 0, 0]), 'bytes that are no text'],
  ])('%s', async (_what, content, part) => {
    await expect(readTable(content)).rejects.toThrow(part);
  });

  test('that is not there, or is a directory', async () => {
    await expect(openTable('/nowhere/table.csv', mappingWith())).rejects.toThrow(
      'can be read at /nowhere/table.csv, got none',
    );
    await expect(openTable('/tmp', mappingWith())).rejects.toThrow('can be read at /tmp, got a folder');
  });

  test('with fewer lines than are skipped', async () => {
    await expect(readTable('time,T,RH\n', { skip: 3 })).rejects.toThrow('expected more than 3 lines, got 1');
  });
});

test('a survey says span, step and reasons', async () => {
  const text =
    'time,T,RH\n2026-05-04T08:00:00Z,1,2\n2026-05-04T08:10:00Z,1,2\n2026-05-04T08:20:00Z,1,\nx,1,2\n2026-05-04T10:00:00Z,,\n';
  const mapping = mappingWith();
  const table = await openTable(tableFile(text), mapping);
  const shown: number[][] = [];
  const survey = await surveyTable(table, mapping, Date.UTC(2027, 0, 1), (...at) => void shown.push(at));
  expect(survey).toMatchObject({
    ...{ lines: 5, empty: 1, refused: 1, reasons: { 'time-unreadable': 1 } },
    probes: [
      {
        probe: 'p01',
        readings: 3,
        from: Date.UTC(2026, 4, 4, 8),
        to: Date.UTC(2026, 4, 4, 8, 20),
        step_ms: 600_000,
      },
    ],
    firstRefused: [{ line: 5, text: 'x,1,2' }],
  });
  expect(survey.first).toHaveLength(3);
  expect(shown.at(-1)).toEqual([Buffer.byteLength(text), 5]);
});
