import { tableFromIPC } from 'apache-arrow';
import Papa from 'papaparse';
import { readParquet } from 'parquet-wasm/node';
import { describe, expect, test } from 'vitest';
import { formatTime, HOUR_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { SHIFTED_U_C } from '../support/calibrating.js';
import { ASKED, BROKEN, CALIBRATED_h, openExport, READINGS, START } from '../tables/export/an-export.js';

type Row = Record<string, string>;

const read = (bytes: Buffer): Row[] => {
  const { data, errors } = Papa.parse<Row>(bytes.toString('utf8'), { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  return data;
};

const ALL = { from: START, to: START + 100 * HOUR_ms, points: 1000 };
const minute = (at: number): string => formatTime(START + at * 10 * MINUTE_ms);

describe('what is written is what the page shows', () => {
  test('value by value', async () => {
    const { bytes, views } = openExport();
    const rows = read(await bytes());
    const shown = views.series('pit-t', ALL).flatMap((series) =>
      series.time.flatMap((time, at) =>
        (['temperature', 'humidity'] as const).flatMap((quantity) => {
          const [value, uncertainty] =
            quantity === 'temperature'
              ? [series.temperature_C[at], series.temperatureUncertainty_C[at]]
              : [series.humidity_RH[at], series.humidityUncertainty_RH[at]];
          return value == null
            ? []
            : [[series.probe, formatTime(time), quantity, value, uncertainty ?? null]];
        }),
      ),
    );
    expect(
      rows.map(({ probe, time, quantity, corrected, uncertainty }) => [
        ...[probe, time, quantity, Number(corrected)],
        uncertainty === '' ? null : Number(uncertainty),
      ]),
    ).toEqual(shown);
    expect(rows).toHaveLength(2 * (READINGS + Math.ceil(READINGS / 3)));
  });

  test('with raw values, flags, doubts, and what the watch made of each hour', async () => {
    const rows = read(await openExport().bytes()).filter(({ quantity }) => quantity === 'temperature');
    const at = (probe: string, index: number) =>
      rows.find((row) => row['probe'] === probe && row['time'] === minute(index));
    expect(at('p02', 1)).toMatchObject({ raw: '20.1', corrected: '20.1', uncertainty: '', flags: '' });
    expect(at('p01', 6 * CALIBRATED_h + 1)).toMatchObject({
      ...{
        raw: '20.5',
        corrected: '19.5',
        uncertainty: String(SHIFTED_U_C.toFixed(6)),
        flags: '',
        unit: 'Cel',
      },
      ...{
        expected: '20',
        band: '0.5',
        excess: '1.25',
        x_cm: '75',
        y_cm: '40',
        depth_cm: '30',
        bed: 'pit-t',
        of: 'reading',
      },
    });
    expect(at('p02', BROKEN)).toMatchObject({ raw: '85', flags: 'sensor-code' });
    expect(at('p01', BROKEN)).toMatchObject({ raw: '85', flags: 'sensor-code;outside' });
    // The last hour has not been judged.
    expect(at('p01', READINGS - 1)).toMatchObject({ expected: '', band: '', excess: '' });
  });

  test('humidity without temperature is corrected all the same', async () => {
    const { bytes } = openExport();
    const both = read(await bytes()).filter(({ quantity }) => quantity === 'humidity');
    expect(read(await bytes({ quantities: ['humidity'] }))).toEqual(both);
  });

  test('batteries where they are asked for', async () => {
    const rows = read(await openExport().bytes({ quantities: ['battery', 'charge'] }));
    expect(rows).toMatchObject([
      { probe: 'p01', quantity: 'battery', unit: 'V', raw: '3.1', corrected: '3.1' },
      { probe: 'p02', quantity: 'battery' },
    ]);
  });

  test('hours of which single readings are kept no more stand as hours', async () => {
    const { bytes, database, archive } = openExport();
    const key = archive.keys.find('test-ridge', 'p03');
    database
      .prepare(
        `INSERT INTO reading_hour (probe, hour, temperature_count, temperature_least, temperature_mean, temperature_greatest, times)
         VALUES (?, ?, 6, 20, 20.5, 21, x'')`,
      )
      .run(key, START);
    archive.fullRate.set(key as number, { since: START + HOUR_ms, goal: 0, foldedTo: 0 });
    expect(read(await bytes()).filter(({ probe }) => probe === 'p03')).toMatchObject([
      {
        time: '2026-05-04T08:00:00Z',
        of: 'hour',
        raw: '20.5',
        corrected: '20.5',
        count: '6',
        least: '20',
        greatest: '21',
      },
    ]);
    // Of an hour that is not in it as a whole nobody knows what is.
    expect(read(await bytes({ to: START + HOUR_ms - 1 })).filter(({ of }) => of === 'hour')).toEqual([]);
  });
});

describe('a selection', () => {
  test('gives the same bytes twice, in whatever order it was asked', async () => {
    const { bytes } = openExport();
    for (const format of ['csv', 'parquet'] as const) {
      const [one, other] = [
        await bytes({}, format),
        await bytes({ quantities: ['temperature', 'humidity', 'temperature'] }, format),
      ];
      expect(one.equals(other)).toBe(true);
    }
  });

  test('keeps to its span, and has the shade where it is asked for', async () => {
    const { bytes } = openExport();
    const span = { from: START + HOUR_ms, to: START + 2 * HOUR_ms };
    const times = read(await bytes(span)).map(({ time }) => time);
    expect([times[0], times.at(-1)]).toEqual([minute(6), minute(11)]);
    const shade = read(await bytes({ ...span, shade: true })).filter(({ bed }) => bed === '');
    expect(shade[0]).toMatchObject({ probe: 'p09', x_cm: '', depth_cm: '', expected: '' });
    const site = { beds: undefined, site: 'test-ridge', ...span };
    expect((await bytes(site)).equals(await bytes({ ...span, shade: true }))).toBe(true);
    expect((await bytes({ ...site, shade: false })).equals(await bytes(span))).toBe(true);
  });

  test('of nothing measured is a header, and no Parquet, which readers would refuse', async () => {
    const { bytes } = openExport();
    const never = { to: START };
    expect(read(await bytes(never))).toEqual([]);
    await expect(bytes(never, 'parquet')).rejects.toThrow('expected readings in the selection, got none');
  });

  test.each([
    [{ beds: ['pit-x'] }, 'no bed has the id "pit-x"'],
    [{ beds: undefined, site: 'nowhere' }, 'no site with beds has the id "nowhere"'],
    [{ beds: undefined, trial: 'sand-2026' }, 'no trial has the id "sand-2026"'],
    [{ from: START, to: START }, 'from: expected a time before to, '],
  ])('%o is refused before anything is read', async (query, message) => {
    const { exports } = openExport();
    await expect(exports.rows({ ...ASKED, ...query }, 'csv')).rejects.toThrow(message);
    expect(() => exports.document({ ...ASKED, ...query }, 'citation', 'csv')).toThrow(message);
  });

  test('of a trial has its beds, and what was done to each at that time', async () => {
    const { bytes, registry } = openExport();
    const trial = { id: 'one', trial: 'sand-2026', from: START + HOUR_ms };
    registry.trials.add({ ...trial, beds: [{ bed: 'pit-t', treatment: '=coarse sand' }] } as never, START);
    registry.trials.add(
      { ...trial, id: 'two', trial: 'cure-2026', beds: [{ bed: 'pit-t' }] } as never,
      START,
    );
    const rows = read(await bytes({ beds: undefined, trial: 'sand-2026' }));
    expect((await bytes()).equals(await bytes({ beds: undefined, trial: 'sand-2026' }))).toBe(true);
    expect(read(await bytes({ beds: undefined, trial: 'cure-2026' }))[40]).toMatchObject({ treatment: '' });
    expect(
      new Set(rows.filter(({ time = '' }) => time < minute(6)).map(({ treatment }) => treatment)),
    ).toEqual(new Set(['']));
    expect(
      new Set(rows.filter(({ time = '' }) => time >= minute(6)).map(({ treatment }) => treatment)),
    ).toEqual(new Set(["'=coarse sand"]));
  });
});

describe('Parquet', () => {
  test('read by another library holds the same rows as the CSV', async () => {
    const { bytes } = openExport();
    const table = tableFromIPC(readParquet(await bytes({ shade: true }, 'parquet')).intoIPCStream());
    const names = table.schema.fields.map(({ name }) => name);
    const text = (value: unknown, name: string): string =>
      value == null ? '' : name === 'time' ? formatTime(Number(value)) : String(value);
    const rows = table
      .toArray()
      .map((row) => Object.fromEntries(names.map((name) => [name, text(row[name], name)])));
    expect(rows).toEqual(read(await bytes({ shade: true })));
    expect(String(table.schema.fields[0]?.type)).toMatch(/^Timestamp<MILLISECOND/);
  });
});

describe('what travels with the rows', () => {
  test('the calibrations of the probes that are in it', async () => {
    const { exports } = openExport();
    const { calibrations } = JSON.parse(exports.document(ASKED, 'calibrations', 'csv'));
    expect(calibrations).toMatchObject([
      {
        probe: 'p01',
        quantity: 'temperature',
        from: formatTime(START + CALIBRATED_h * HOUR_ms),
        by: 'bench-hand',
      },
    ]);
    expect(calibrations[0].points).toHaveLength(2);
  });

  test('a citation that names the site and the selection, invents nobody, and holds no time of its own', async () => {
    const { exports } = openExport();
    const text = exports.document({ ...ASKED, from: START }, 'citation', 'csv');
    expect(text).toContain('Test ridge');
    expect(text).toContain('Beds: Pit T (pit-t)');
    expect(text).toContain('From: 2026-05-04T08:00:00Z');
    expect(text).toContain('Licence: to be chosen by the owner of the data');
    expect(text).toContain('Authors: to be named');
    expect(exports.document({ ...ASKED, from: START }, 'citation', 'csv')).toBe(text);
  });
});
