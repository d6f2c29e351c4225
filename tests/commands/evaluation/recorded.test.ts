import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type RecordedReading, readRecorded } from '../../../services/commands/evaluation/recorded-file.js';
import { recordedHours } from '../../../services/commands/evaluation/recorded-hours.js';
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { DAY_ms, HOUR_ms } from '../../../services/core/model/time.js';
import { Directory, type KnownBed } from '../../../services/joining/directory.js';
import { temporaryDirectory } from '../../support/open.js';
import { SHORT_SEASON, siteOf } from '../../support/season.js';

async function all(file: string): Promise<RecordedReading[]> {
  const readings: RecordedReading[] = [];
  for await (const reading of readRecorded(file)) readings.push(reading);
  return readings;
}

async function read(text: string): Promise<RecordedReading[]> {
  const file = join(temporaryDirectory(), 'readings');
  writeFileSync(file, text);
  return all(file);
}

const TIME = '2026-05-04T08:00:00Z';
const AT = Date.UTC(2026, 4, 4, 8);

describe('recorded readings', () => {
  test('as CSV: columns in any order, quotes, other columns, gaps, blank lines', async () => {
    const text = `\uFEFFtime,"probe",humidity,battery,temperature\r\n${TIME},p01,87.5,3.1,21.4\r\n\r\n"${TIME}","p02",,,20\r\n`;
    expect(await read(text)).toEqual([
      { probe: 'p01', at: AT, temperature: 21.4, humidity: 87.5 },
      { probe: 'p02', at: AT, temperature: 20 },
    ]);
  });

  test('as JSON lines: the first is a reading too', async () => {
    const text = `{"probe":"p01","time":"${TIME}","temperature":21.4}\n{"probe":"p01","time":"${TIME}","humidity":null}`;
    expect(await read(text)).toEqual([
      { probe: 'p01', at: AT, temperature: 21.4 },
      { probe: 'p01', at: AT },
    ]);
  });

  test.each([
    ['an empty file', '', /readings: expected readings, got none/],
    ['a header alone', 'probe,time,temperature\n', /expected readings, got none/],
    ['no column of times', 'probe,temperature\np01,20\n', /line 1: expected a header with probe, time/],
    ['nothing measured', `probe,time\np01,${TIME}\n`, /line 1: expected a header/],
    ['no time', 'probe,time,temperature\np01,yesterday,20\n', /line 2: time: .* got "yesterday"/],
    [
      'a field too few',
      `probe,time,temperature\np01,${TIME}\n`,
      /line 2: expected 3 fields as in the header, got 2/,
    ],
    [
      'an open quote',
      `probe,time,temperature\n"p01,${TIME},20\n`,
      /line 2: expected a quoted field to be closed/,
    ],
    ['no probe', `probe,time,temperature\n,${TIME},20\n`, /line 2: probe: expected an id, got ""/],
    ['no number', `probe,time,temperature\np01,${TIME},warm\n`, /line 2: temperature: .* got "warm"/],
    ['no JSON', `{"probe":"p01","time":"${TIME}","temperature":20}\n{`, /line 2: .*JSON/],
    [
      'no object',
      `{"probe":"p01","time":"${TIME}","temperature":20}\nnull`,
      /line 2: expected a JSON object/,
    ],
    ['a list for a number', `{"probe":"p01","time":"${TIME}","temperature":[20]}`, /line 1: temperature/],
    ['an infinite one', `probe,time,temperature\np01,${TIME},1e999\n`, /line 2: temperature/],
  ])('%s is refused by file and line', async (_, text, sentence) => {
    await expect(read(text)).rejects.toMatchObject({
      code: 'WRONG_USAGE',
      message: expect.stringMatching(sentence),
    });
  });

  test('a file that is not there', async () => {
    await expect(all('/nowhere/readings.csv')).rejects.toThrow(
      /^expected a file that can be read at \/nowhere\/readings\.csv, got none$/,
    );
  });
});

describe('the hours of a bed from recorded readings', () => {
  const [known] = new Directory([checkSiteFile('site', siteOf(SHORT_SEASON))], () => 1).beds.values();
  const of = (readings: Readonly<Record<string, readonly number[]>>) =>
    recordedHours(
      known as KnownBed,
      new Map(
        Object.entries(readings).map(([probe, times]) => [
          probe,
          times.map((time) => ({ at: time, temperature: 20 })),
        ]),
      ),
    );

  test('run from the first reading to the last, empty ones too, in the bed only while the probe stood there', () => {
    const hours = of({ p01: [AT - HOUR_ms, AT, AT + 2 * HOUR_ms + 5], p77: [AT + 9 * HOUR_ms] });
    expect(hours.map(({ hour, probes }) => [(hour - AT) / HOUR_ms, probes.size])).toEqual([
      [0, 1],
      [1, 0],
      [2, 1],
    ]);
  });

  test('begin with the shade where it was measured by then, and do not end with it', () => {
    const day = AT + 5 * DAY_ms;
    const hours = of({ p01: [day], p09: [AT, day + DAY_ms] });
    expect([hours[0]?.hour, hours.at(-1)?.hour, hours[0]?.shade.size]).toEqual([AT, day, 1]);
  });

  test('none where nothing was measured; too many are refused', () => {
    expect(of({ p09: [AT] })).toEqual([]);
    expect(() => of({ p01: [AT, AT + 1101 * DAY_ms] })).toThrow(
      /bed pit-t: expected readings of at most 1100/,
    );
  });
});
