/** What the flags of `fill`, `look` and `stock`, and files of records, are refused for before anything is sent. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type FillFlags, fillRecord } from '../../services/commands/ledger/fill.js';
import { inspectedLines } from '../../services/commands/ledger/lines.js';
import { type LookFlags, lookRecord } from '../../services/commands/ledger/look-flags.js';
import { keepRecord, readRecords, requireRecord } from '../../services/commands/ledger/record.js';
import { sendFile } from '../../services/commands/ledger/send.js';
import { type StockFlags, stockRecord } from '../../services/commands/ledger/stock.js';
import { temporaryDirectory } from '../support/open.js';

const common = { service: 'http://127.0.0.1:1', by: 'Wanja', at: '2026-05-04T08:00:00Z' };
const look = (flags: Partial<LookFlags>) => () => requireRecord(lookRecord('pit-a', { ...common, ...flags }));
const fill = (flags: Partial<FillFlags>) => () => requireRecord(fillRecord('pit-a', { ...common, ...flags }));
const stock =
  (what: string, rest: string[], flags: Partial<StockFlags> = {}) =>
  () =>
    requireRecord(stockRecord('pit-a', what, rest, { ...common, ...flags }));

describe('flags', () => {
  test('make the records that the service takes', () => {
    expect(look({ closed: true, found: ['damp'] })().body).toMatchObject({ opened: false, found: ['damp'] });
    expect(fill({ course: ['9:3', '8'], probe: ['p01:1,2,3.5'] })().body).toMatchObject({
      courses: [{ roots: 9, mass_kg: 3 }, { roots: 8 }],
      probes: [{ probe: 'p01', x: 1, y: 2, depth: 3.5 }],
    });
    expect(stock('in', ['9'])().body).toMatchObject({ kind: 'in', reason: 'added', roots: 9 });
  });

  test.each<[() => unknown, RegExp]>([
    [look({ found: ['rot'], by: '' }), /--by: expected a value/],
    [look({ found: ['mould'] }), /found\[0\]: expected "rot"/],
    [look({ out: ['eaten'] }), /--out: expected reason:roots/],
    [look({ out: ['eaten:1:rotten:x'] }), /--out: expected reason:roots/],
    [look({ out: ['lent:1'], looked: '3' }), /reason: expected "eaten"/],
    [look({ looked: 'many' }), /--looked: expected a number/],
    [look({ looked: '1.5' }), /--looked: expected a whole number/],
    [look({ rotten: '2' }), /looked: expected how many roots were looked at/],
    [look({ found: ['rot'], at: 'yesterday' }), /at: expected an RFC 3339 time/],
    [look({ smell: 'sour' }), /smell: expected "fresh"/],
    [fill({}), /--course: expected a value/],
    [fill({ course: ['9:1:1'] }), /--course: expected roots or roots:kg/],
    [fill({ course: ['none'] }), /--course: expected a number/],
    [fill({ course: ['9'], probe: ['p01:1,2'] }), /--probe: expected its id/],
    [fill({ course: ['9'], probe: ['p01:1,2,deep'] }), /--probe: expected a number/],
    [fill({ course: ['9'], probe: ['P01:1,2,3'] }), /probe: expected 1 to 32 of a-z/],
    [fill({ course: ['9'], supersedes: 'the first' }), /supersedes: expected a UUID/],
    [stock('lend', ['3']), /expected show, in, out or counter after the bed, got "lend"/],
    [stock('out', ['3']), /--reason: expected a value/],
    [stock('out', [], { reason: 'sold' }), /out: how many roots: expected a value/],
    [stock('out', ['3', '4'], { reason: 'sold' }), /nothing more after the roots, got "4"/],
    [stock('out', ['3'], { reason: 'filled' }), /reason: expected "eaten"/],
    [stock('counter', ['3', '4'], { reason: 'wrong' }), /of: expected a UUID/],
    [stock('in', ['3'], { mass: '-1' }), /--mass: expected a number/],
  ])('%#: are refused by name', (make, sentence) => {
    expect(make).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(sentence) }),
    );
  });
});

describe('a file of records', () => {
  const file = (text: string): string => {
    const path = join(temporaryDirectory(), 'k.jsonl');
    writeFileSync(path, text);
    return path;
  };

  test('gives back what was kept, in order', () => {
    const path = join(temporaryDirectory(), 'k.jsonl');
    const records = [stock('in', ['9'])(), look({ found: ['rot'], photo: ['a.jpg'] })()];
    for (const record of records) keepRecord(path, record);
    expect(readRecords(path)).toEqual(records);
  });

  const unnamed =
    '{"record":"inspection","bed":"a","body":{"at":"2026-05-09T08:00:00Z","by":"W","opened":true,"repacked":false,"found":["rot"]}}';
  test.each<[string, RegExp]>([
    ['\n{', /k\.jsonl, line 2: expected JSON/],
    ['{"bed":"pit-t"}', /k\.jsonl, line 1: record: expected/],
    [
      '{"record":"loan","bed":"a","body":{}}',
      /line 1: record: expected "filling" or "inspection" or "stock"/,
    ],
    [`\n\n${unnamed}`, /line 3: id: expected a UUID/],
    [unnamed.replace('"body"', '"photoFiles":["a.jpg"],"body"'), /photoFiles\[0\]: expected a whole path/],
    ['[]', /line 1: the document: expected/],
  ])('that holds %j is refused by its line', (text, sentence) => {
    expect(() => readRecords(file(text))).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(sentence) }),
    );
  });
});

describe('what became of an alarm', () => {
  const answer = (change: object) =>
    inspectedLines({
      ...{ id: 'i1', bed: 'pit-a', at: '2026-05-20T08:00:00Z', found: ['rot'], isNew: true, left: null },
      ...{ advice: [], cautions: [], notes: [], ended: [], judged: true },
      alarms: [
        {
          ...{ id: 'a1', kind: 'heating', action: 'unpack', raisedAt: '2026-05-19T08:00:00Z' },
          ...{ clearedAt: null, foundOut: { verdict: 'right', lookedAt: '2026-05-20T08:00:00Z' } },
        },
      ],
      ...change,
    } as never)[1];

  test.each<[object, RegExp]>([
    [{}, /what it warned of was found; it lasts\.$/],
    [{ ended: ['a1'] }, /; it is over\.$/],
    [{ judged: false }, /; whether it lasts is judged next\.$/],
  ])('%j', (change, sentence) => {
    expect(answer(change)).toMatch(sentence);
  });
});

test('a file without a record is said to hold none', async () => {
  const said: string[] = [];
  const kept = join(temporaryDirectory(), 'none.jsonl');
  writeFileSync(kept, '');
  await sendFile(
    { service: 'http://127.0.0.1:1', fromFile: kept },
    { say: (line) => void said.push(line), tell: (line) => void said.push(line) },
  );
  expect(said).toEqual([`note: ${kept} holds no records`]);
});
