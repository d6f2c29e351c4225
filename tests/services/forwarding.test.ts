/** Readings on their way to a real InfluxDB that is killed, held up, without its database, and refuses some. */
import { setTimeout as pause } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { Forwarder, InfluxConnection } from '../../services/archive/influx/index.js';
import { DAY_ms } from '../../services/core/model/time.js';
import { startInfluxd } from '../support/influxd.js';
import { openStores } from '../support/open.js';

const T = Date.UTC(2026, 5, 1);
const PROBES = ['p01', 'p02', 'p03'];

async function openForwarding() {
  const influxd = await startInfluxd();
  onTestFinished(() => influxd.dispose());
  const { database, archive } = openStores();
  archive.spool.setActive(true);
  const keys = PROBES.map((probe) => archive.keys.keyOf('ridge-station', probe));
  const address = parseInfluxUrl(`${influxd.url}/sand`);
  const connection = new InfluxConnection(address, 300);
  const aside: number[] = [];
  const forwarder = new Forwarder({
    spool: archive.spool,
    nameOf: (key) => archive.keys.nameOf(key),
    write: (lines) => connection.write(lines),
    inTransaction: (work) => database.transaction(work).immediate(),
    setAside: ({ reading }) => aside.push(reading[2]),
    log: () => undefined,
    now: Date.now,
    // Its waits are tested by hand elsewhere.
    after: (delay_ms, call) => {
      const handle = setTimeout(call, Math.min(delay_ms, 50));
      return () => clearTimeout(handle);
    },
  });
  const asking = new InfluxConnection(address);
  onTestFinished(async () => {
    asking.close();
    connection.close();
    await forwarder.close();
  });
  let minute = 0;
  return {
    ...{ influxd, asking, forwarder, aside },
    /** Some minutes of all probes, in one transaction as they are taken in. */
    takeIn: (minutes: number) =>
      database.transaction(() => {
        for (const end = minute + minutes; minute < end; minute += 1)
          for (const key of keys)
            archive.readings.put(key, T + minute * 60_000, {
              temperature: 20 + key + minute / 1e4,
              humidity: 90,
            });
      })(),
    kept: () => Number(database.prepare('SELECT count(*) FROM reading').pluck().get()),
    emptied: () => until(() => archive.spool.backlog().waiting === 0),
    inTrouble: () => until(() => forwarder.state().trouble !== null),
    isThrough: () => until(() => forwarder.state().trouble === null),
  };
}

async function until(holds: () => boolean): Promise<void> {
  const latest = Date.now() + 30_000;
  while (!holds()) {
    if (Date.now() > latest) throw new Error('never came about');
    await pause(20);
  }
}

async function countIn(connection: InfluxConnection): Promise<number[]> {
  const tables = await connection.query(
    'SELECT count(temperature_C), sum(temperature_C) FROM reading GROUP BY probe',
  );
  return tables.map(({ values }) => Number(values?.[0]?.[1]));
}

test('a server without its database, killed twice, held up: nothing is lost and nothing doubled', async () => {
  const { influxd, asking, takeIn, kept, emptied, inTrouble, isThrough, aside } = await openForwarding();
  takeIn(3_000);
  await inTrouble();
  await asking.query('CREATE DATABASE "sand"', 'change');
  await isThrough();
  for (let kill = 0; kill < 2; kill += 1) {
    takeIn(4_000);
    await influxd.kill();
    takeIn(1_000);
    await inTrouble();
    await influxd.start();
    await isThrough();
  }
  influxd.hold();
  takeIn(3_000);
  await inTrouble();
  influxd.release();
  await emptied();
  expect(aside).toEqual([]);
  expect(await countIn(asking)).toEqual([16_000, 16_000, 16_000]);
  expect(kept()).toBe(48_000);
});

test('a week in which a field has another type is refused reading by reading, and the rest is forwarded', async () => {
  const { asking, takeIn, kept, emptied, aside, forwarder } = await openForwarding();
  await asking.query('CREATE DATABASE "sand" WITH DURATION INF SHARD DURATION 1d', 'change');
  // The type of a field is one for each part of the time axis.
  await asking.write(`reading,probe=x humidity_RH=90i ${T + 2 * DAY_ms + 1}`);
  takeIn(2 * 1440 + 4);
  await emptied();
  const others = 2 * 1440 + 4;
  expect(aside).toHaveLength(4 * PROBES.length);
  expect(Math.min(...aside)).toBe(T + 2 * DAY_ms);
  expect(forwarder.state().refused).toBe(12);
  expect(kept()).toBe(3 * others);
  expect(await countIn(asking)).toEqual([others - 4, others - 4, others - 4]);
});
