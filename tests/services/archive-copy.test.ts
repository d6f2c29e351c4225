/** Setting up a long archive, and moving history to it and back, with a real InfluxDB. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { copyHistory } from '../../services/archive/history/copy.js';
import { sumOf } from '../../services/archive/history/day-sums.js';
import type { History } from '../../services/archive/history/history.js';
import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { InfluxConnection } from '../../services/archive/influx/index.js';
import { setUp } from '../../services/archive/influx/setup.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { all, influx, P01, P02, reading, season, sqlite, T } from '../support/both-archives.js';
import { type Influxd, startInfluxd } from '../support/influxd.js';
import { run, start } from '../support/processes.js';

let influxd: Influxd;

beforeAll(async () => {
  influxd = await startInfluxd();
});
afterAll(() => influxd.dispose());

describe('history is copied', () => {
  test('there and back, the same bit by bit; a second time nothing is left to do', async () => {
    const [from, there, back] = [sqlite(), await influx(influxd), sqlite()];
    const rows = season(4 * 1440, 3);
    await from.history.put(P01, rows);
    await from.history.put(P02, rows.slice(0, 100));
    const copied = await copyHistory(from.history, there.history);
    expect(copied).toMatchObject({ probes: 2, days: 5, daysBefore: 0, differences: [], notes: [] });
    expect(await copyHistory(there.history, back.history)).toMatchObject({ days: 5, values: copied.values });
    expect(await all(back.history, P01)).toEqual(rows);
    expect(await copyHistory(from.history, there.history)).toMatchObject({
      days: 0,
      daysBefore: 5,
      values: 0,
    });
  });

  test('ended in the middle it goes on: what is there is not written again', async () => {
    const [from, there] = [sqlite(), await influx(influxd)];
    await from.history.put(P01, season(10 * 1440, 4));
    let puts = 0;
    const ending: History = {
      probes: () => there.history.probes(),
      span: (name) => there.history.span(name),
      since: () => 0,
      pages: (...asked) => there.history.pages(...asked),
      put: async (name, readings) => {
        puts += 1;
        // A part of the batch is there when it ends.
        await there.history.put(name, puts === 3 ? readings.slice(0, 700) : readings);
        if (puts === 3) throw new Error('killed');
      },
    };
    await expect(copyHistory(from.history, ending)).rejects.toThrow('killed');
    expect(await copyHistory(from.history, there.history)).toMatchObject({
      days: 6,
      daysBefore: 4,
      differences: [],
    });
    expect(await all(there.history, P01)).toEqual(await all(from.history, P01));
  });

  test('a day that holds another value differs, by count and checksum, and the rest is copied', async () => {
    const [from, to] = [sqlite(), sqlite()];
    await from.history.put(P01, season(3 * 1440, 5));
    await to.history.put(P01, [reading(1440, { temperature: 99 })]);
    const { differences, days } = await copyHistory(from.history, to.history);
    expect(days).toBe(2);
    expect(differences).toMatchObject([{ ...P01, day: T + DAY_ms }]);
    expect(differences[0]?.from.checksum).not.toBe(differences[0]?.to.checksum);
  });

  test('what is kept by hours only, on either side, is left out and said', async () => {
    const [from, to] = [sqlite(), sqlite()];
    await from.history.put(P01, season(2 * 1440, 6));
    const folded: History = { ...bound(to.history), since: () => T + DAY_ms };
    const { notes, days } = await copyHistory(from.history, folded);
    expect(days).toBe(1);
    expect(notes).toEqual([
      expect.stringMatching(/^ridge-station\/p01: before 2026-06-02T00:00:00Z .*by hours/),
    ]);
    expect((await to.history.span(P01))?.from).toBeGreaterThanOrEqual(T + DAY_ms);
  });
});

const bound = (history: History): History => ({
  probes: () => history.probes(),
  span: (name) => history.span(name),
  since: (name) => history.since(name),
  pages: (...asked) => history.pages(...asked),
  put: (...asked) => history.put(...asked),
});

describe('setting up', () => {
  test('makes what is missing, and the second time nothing', async () => {
    const { connection } = await influx(influxd);
    const again = await setUp(connection, {});
    expect(again).toHaveLength(4);
    for (const line of again) expect(line).toMatch(/there already$/);
  });

  test('keeps longer, never shorter', async () => {
    const connection = new InfluxConnection(parseInfluxUrl(`${influxd.url}/kept`));
    expect(await setUp(connection, { keep_days: 400 })).toContain(
      'readings, policy full_rate: kept for 400 days, there already',
    );
    expect((await setUp(connection, { keep_days: 800 }))[1]).toMatch(
      /kept for 800 days, before for 400 days/,
    );
    await expect(setUp(connection, { keep_days: 500 })).rejects.toThrow(
      /--keep: expected at least .* 800 days/,
    );
    expect((await setUp(connection, {}))[1]).toMatch(/kept for 800 days, there already/);
  });

  test('uses the default policy of a database that is there, and replaces a query of before', async () => {
    const connection = new InfluxConnection(parseInfluxUrl(`${influxd.url}/theirs`));
    await connection.query('CREATE DATABASE "theirs"', 'change');
    expect(await setUp(connection, {})).toEqual([
      'database theirs: there already',
      'readings, policy autogen: kept for ever, there already',
      'hours, policy hours: made, kept for ever',
      'continuous query sandlarder_hours: made',
    ]);
    await connection.query('DROP CONTINUOUS QUERY "sandlarder_hours" ON "theirs"', 'change');
    await connection.query(
      'CREATE CONTINUOUS QUERY "sandlarder_hours" ON "theirs" BEGIN SELECT max("x") INTO "y" FROM "reading" GROUP BY time(1h) END',
      'change',
    );
    expect((await setUp(connection, {}))[3]).toMatch(/made anew/);
    expect((await setUp(connection, {}))[3]).toMatch(/there already/);
  });
});

test('the continuous query makes least, mean, greatest and count of each hour', async () => {
  const { connection, history } = await influx(influxd);
  await history.put(
    P01,
    [4, 1, 7].map((value, at) => reading(at * 20, { temperature: value })),
  );
  const [shown] = (await connection.query('SHOW CONTINUOUS QUERIES')).filter(
    ({ name }) => name === connection.database,
  );
  const [, select = ''] = /BEGIN (.*) GROUP BY/.exec(String(shown?.values?.[0]?.[1])) ?? [];
  // What the server does each hour, done at once.
  await connection.query(
    `${select} WHERE time >= ${T}ms AND time < ${T + DAY_ms}ms GROUP BY time(1h), site, probe`,
    'change',
  );
  const [table] = await connection.query(
    'SELECT temperature_C_min, temperature_C_mean, temperature_C_max, temperature_C_count FROM hours.reading_hour WHERE temperature_C_count > 0',
  );
  expect(table?.values).toEqual([[T, 1, 4, 7, 3]]);
});

test('a copy that is killed goes on where it was', async () => {
  const { directory, history } = sqlite();
  const { url, history: there } = await influx(influxd);
  await history.put(P01, season(40 * 1440, 8));
  const args = ['archive', 'copy', '--from', directory, '--to', url];
  const first = start(args);
  await first.said(/ridge-station\/p01/);
  await first.kill();
  const { stdout } = await run(args);
  const [, now, before] = /1 probes: (\d+) days copied with \d+ values, (\d+) days/.exec(stdout) ?? [];
  expect(Number(before)).toBeGreaterThan(0);
  expect(Number(now) + Number(before)).toBe(40);
  expect(sumOf(await all(there, P01))).toEqual(sumOf(await all(history, P01)));
});

test('the commands say what they did, and fail in one line', async () => {
  const { directory, history } = sqlite();
  await history.put(P01, season(100, 7));
  const url = `${influxd.url}/by_command`;
  expect((await run(['archive', 'setup', '--influx', url])).stdout).toMatch(/^database by_command: made\n/);
  const copied = await run(['archive', 'copy', '--from', directory, '--to', url]);
  expect(copied).toMatchObject({
    code: 0,
    stdout: expect.stringMatching(/^1 probes: 1 days copied with \d+ values/),
  });
  const [missing, same] = await Promise.all([
    run(['archive', 'copy', '--from', directory, '--to', `${influxd.url}/nowhere`]),
    run(['archive', 'copy', '--from', directory, '--to', directory]),
  ]);
  expect(missing).toMatchObject({ code: 1, stderr: expect.stringMatching(/database not found.*\n$/) });
  expect(same).toMatchObject({
    code: 2,
    stderr: expect.stringMatching(/^sandlarder: --from and --to: expected/),
  });
});
