/** One contract for both archives: SQLite and a real InfluxDB. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Unused } from '../../services/archive/index.js';
import type { StoredReading } from '../../services/archive/reading-store.js';
import { DAY_ms, MINUTE_ms } from '../../services/core/model/time.js';
import { all, influx, type Opened, P01, P02, reading, season, sqlite, T } from '../support/both-archives.js';
import { type Influxd, startInfluxd } from '../support/influxd.js';

let influxd: Influxd;

beforeAll(async () => {
  influxd = await startInfluxd();
});
afterAll(() => influxd.dispose());

describe.each([
  ['SQLite', async () => sqlite()],
  ['InfluxDB', () => influx(influxd)],
] as const)('an archive in %s', (_, open: () => Promise<Opened>) => {
  test('gives what was put, bit by bit, in order of time whatever the order it came in', async () => {
    const { history } = await open();
    const rows = [
      reading(0, { temperature: 0.1 + 0.2, humidity: 80 }),
      reading(1, { temperature: -273.15, battery: 3, charge: 0 }),
      reading(2, { humidity: 1e-7 }),
      reading(3, { temperature: 1000, humidity: 0, battery: 1 / 3, charge: 100 }),
    ];
    await history.put(P01, [rows[3], rows[1], rows[0], rows[2]] as StoredReading[]);
    expect(await all(history, P01)).toEqual(rows);
  });

  test('keeps a reading once, and joins values that come later', async () => {
    const { history } = await open();
    await history.put(P01, [reading(0, { temperature: 20 })]);
    await history.put(P01, [reading(0, { temperature: 20 }), reading(0, { humidity: 90 })]);
    expect(await all(history, P01)).toEqual([reading(0, { temperature: 20, humidity: 90 })]);
  });

  test('gives a span from its start to before its end, of one probe', async () => {
    const { history } = await open();
    for (const name of [P02, P01])
      await history.put(
        name,
        [0, 1, 2].map((minute) => reading(minute, { humidity: minute })),
      );
    const [from, to] = [T + MINUTE_ms, T + 2 * MINUTE_ms];
    expect(await all(history, P01, from, to)).toEqual([reading(1, { humidity: 1 })]);
    expect(await history.probes()).toEqual([P01, P02]);
    expect(await history.span(P01)).toEqual({ from: T, to: T + 2 * MINUTE_ms + 1 });
    expect(await history.span({ site: 'ridge-station', probe: 'p03' })).toBeUndefined();
    expect(await all(history, { site: 'other-station', probe: 'p01' })).toEqual([]);
  });

  test('gives more rows than a page has', async () => {
    const { history } = await open();
    const rows = Array.from({ length: 20_003 }, (_, minute) => reading(minute, { temperature: minute / 8 }));
    await history.put(P01, rows);
    expect(await all(history, P01)).toEqual(rows);
  });

  test('gives a short series whole, also rows without either quantity', async () => {
    const { history, series } = await open();
    await history.put(P01, [reading(0, { battery: 3 }), reading(1, { temperature: 20 })]);
    expect(await series(P01, T, T + DAY_ms, 2)).toEqual({
      rows: [
        { time: T, temperature: null, humidity: null },
        { time: T + MINUTE_ms, temperature: 20, humidity: null },
      ],
      thinned: false,
    });
  });

  test('gives a long one thinned, with its minima and maxima, but for what is not used', async () => {
    const { history, series } = await open();
    const rows = season(12_000);
    await history.put(P01, rows);
    const coldest = rows.reduce((one, other) =>
      (other.temperature ?? 99) < (one.temperature ?? 99) ? other : one,
    );
    const unused: Unused = { temperature: new Set([coldest.time]), humidity: new Set() };
    const whole = await series(P01, T, T + 100 * DAY_ms, 200);
    const used = await series(P01, T, T + 100 * DAY_ms, 200, unused);
    expect(whole.thinned).toBe(true);
    expect(whole.rows.length).toBeLessThanOrEqual(200);
    expect(whole.rows.some(({ time }) => time === coldest.time)).toBe(true);
    expect(used.rows.some(({ temperature }) => temperature === coldest.temperature)).toBe(false);
    for (const quantity of ['temperature', 'humidity'] as const) {
      const most = Math.max(...rows.map((row) => row[quantity] ?? Number.NEGATIVE_INFINITY));
      expect(Math.max(...whole.rows.map((row) => row[quantity] ?? Number.NEGATIVE_INFINITY))).toBe(most);
    }
  });
});

test('both thin a series to the same rows', async () => {
  const [one, other] = [sqlite(), await influx(influxd)];
  const rows = season(15_000, 2);
  for (const { history } of [one, other]) await history.put(P01, rows);
  const asked = [P01, T + 7, T + 9 * DAY_ms, 333] as const;
  expect(await one.series(...asked)).toEqual(await other.series(...asked));
});
