import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvRecords } from '../../../services/core/model/csv-lines.js';

const fieldsOf = (text: string): (readonly string[])[] => csvRecords(text, ',').map(({ fields }) => fields);

describe('RFC 4180, the examples of its section 2', () => {
  test.each([
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%j', (text, fields) => {
    expect(fieldsOf(text)).toEqual(fields);
  });
});

test.each([
  ['', []],
  ['\n\n', []],
  ['\uFEFFa,b', [['a', 'b']]],
  [
    'a,\n,b\n',
    [
      ['a', ''],
      ['', 'b'],
    ],
  ],
  ['a,', [['a', '']]],
  ['a\rb\nc\r\nd', [['a'], ['b'], ['c'], ['d']]],
  [' a , b ', [[' a ', ' b ']]],
  ['"",""', [['', '']]],
])('%j', (text, fields) => {
  expect(fieldsOf(text)).toEqual(fields);
});

test('the other separator is text', () => {
  expect(csvRecords('1,5;2', ';').map(({ fields }) => fields)).toEqual([['1,5', '2']]);
  expect(csvRecords('1;5,2', ',').map(({ fields }) => fields)).toEqual([['1;5', '2']]);
});

test('lines are counted through empty lines and line breaks within quotes', () => {
  const text = 'a\r\n\r\n"b\n\nb"\nc\n';
  expect(csvRecords(text, ',').map(({ line }) => line)).toEqual([1, 3, 6]);
});

describe('a fault is named, and the next line is read', () => {
  test.each(['x,a"b,c', 'x,"a"b,c', 'x,"a" ,c'])('%j', (bad) => {
    const [first, second, ...rest] = csvRecords(`${bad}\ngood,line\n`, ',');
    expect(rest).toEqual([]);
    expect(first).toMatchObject({ line: 1, fault: expect.stringContaining('expected') });
    expect(second).toEqual({ line: 2, fields: ['good', 'line'] });
  });

  test('a quote that is never closed costs its own line only', () => {
    const [first, second] = csvRecords('x,"abc\ngood,line\n', ',');
    expect(first?.fault).toContain('closed');
    expect(second).toEqual({ line: 2, fields: ['good', 'line'] });
  });
});

test('what is written by the rules is read back', () => {
  const field = fc.string({ unit: fc.constantFrom('a', '"', ',', ';', '\n', '\r', ' ', 'é'), maxLength: 6 });
  const record = fc.array(field, { minLength: 2, maxLength: 5 });
  fc.assert(
    fc.property(fc.array(record, { minLength: 1, maxLength: 5 }), (records) => {
      const text = records
        .map((fields) => fields.map((one) => `"${one.replaceAll('"', '""')}"`).join(','))
        .join('\r\n');
      expect(fieldsOf(text)).toEqual(records);
    }),
    { seed: 51, numRuns: 300 },
  );
});

test('a long file of open quotes is done with in proportion', () => {
  // 20,000 lines; quadratic reading would take minutes, the test's limit is 60 s.
  const text = '"a,b\n'.repeat(20_000);
  expect(csvRecords(text, ',').length).toBeGreaterThan(1);
});
