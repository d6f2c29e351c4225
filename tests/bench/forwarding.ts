/** Readings into an InfluxDB of the bench's own: from the spool, and by the bare client from memory. */
import { once } from 'node:events';
import { InfluxDB, type IPoint } from 'influx';
import { ARCHIVE_SCHEMA, createArchive, openDatabase } from '../../services/archive/index.js';
import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { BATCH_readings, Forwarder } from '../../services/archive/influx/forwarder.js';
import { InfluxConnection } from '../../services/archive/influx/index.js';
import { startInfluxd } from '../support/influxd.js';
import type { Measured } from './measured.js';
import { cleaningUp, temporaryDirectory, type Undo } from './processes.js';
import type { BothSides } from './seasons.js';

const FIRST = Date.UTC(2026, 5, 1);
const STEP_ms = 600_000;

/** They come in turns, as they do. */
const PROBES = Array.from({ length: 51 }, (_, number) => `p${number + 1}`);

const WARM_readings = BATCH_readings * 4;

interface Made {
  readonly probe: string;
  readonly time: number;
  readonly temperature: number;
  readonly humidity: number;
}

const made = (number: number): Made => ({
  probe: PROBES[number % PROBES.length] ?? '',
  time: FIRST + Math.floor(number / PROBES.length) * STEP_ms,
  temperature: 20 + (number % 977) / 100,
  humidity: 80 + (number % 613) / 100,
});

/** One round, in a server of its own, which both sides find warm, and are warm themselves. */
export function forwardingMeasured(readings: number, oursFirst: boolean): Promise<BothSides> {
  return cleaningUp(async (undo) => {
    const influxd = await startInfluxd();
    undo(() => influxd.dispose());
    await bare(influxd.url, 'bare_warm', WARM_readings);
    await ours(undo, influxd.url, 'ours_warm', WARM_readings);
    const early = oursFirst ? await ours(undo, influxd.url, 'ours', readings) : undefined;
    const other = await bare(influxd.url, 'bare', readings);
    return { bare: other, ours: early ?? (await ours(undo, influxd.url, 'ours', readings)) };
  });
}

async function bare(url: string, database: string, readings: number): Promise<Measured> {
  const { hostname, port } = new URL(url);
  const client = new InfluxDB({ host: hostname, port: Number(port), database });
  await client.createDatabase(database);
  const batches: IPoint[][] = [];
  for (let from = 0; from < readings; from += BATCH_readings)
    batches.push(
      Array.from({ length: Math.min(BATCH_readings, readings - from) }, (_, at) => pointOf(made(from + at))),
    );
  const begun = performance.now();
  for (const batch of batches) await client.writePoints(batch, { precision: 'ms' });
  return perSecond(readings, begun);
}

const pointOf = ({ probe, time, temperature, humidity }: Made): IPoint => ({
  measurement: 'reading',
  tags: { site: 'ridge-station', probe },
  fields: { temperature_C: temperature, humidity_RH: humidity },
  timestamp: time as unknown as Date,
});

async function ours(undo: Undo, url: string, name: string, readings: number): Promise<Measured> {
  const database = openDatabase(temporaryDirectory(undo), [ARCHIVE_SCHEMA]);
  undo(() => database.close());
  const { spool, keys, readings: store } = createArchive(database);
  spool.setActive(true);
  database.transaction(() => {
    for (let number = 0; number < readings; number += 1) {
      const { probe, time, temperature, humidity } = made(number);
      store.put(keys.keyOf('ridge-station', probe), time, { temperature, humidity });
    }
  })();
  // What was taken in beforehand is not to be copied from the log into the file while forwarding is measured.
  database.pragma('wal_checkpoint(TRUNCATE)');
  const connection = new InfluxConnection(parseInfluxUrl(`${url}/${name}`));
  undo(() => connection.close());
  await connection.query(`CREATE DATABASE "${name}"`, 'change');
  const emptied = new EventTarget();
  let forwarded = 0;
  const empty = once(emptied, 'empty');
  const begun = performance.now();
  const forwarder = new Forwarder({
    spool,
    nameOf: (key) => keys.nameOf(key),
    write: (lines) => connection.write(lines),
    inTransaction: (work) => database.transaction(work).immediate(),
    setAside: ({ reason }) => {
      throw new Error(`expected that every reading is taken, got ${reason}`);
    },
    log: (line) => process.stderr.write(`${line}\n`),
    onForwarded: (some) => {
      forwarded += some;
      if (forwarded >= readings) emptied.dispatchEvent(new Event('empty'));
    },
    now: Date.now,
    after: (delay_ms, call) => {
      const handle = setTimeout(call, delay_ms);
      return () => clearTimeout(handle);
    },
  });
  await empty;
  const measured = perSecond(readings, begun);
  await forwarder.close();
  await expectAll(connection, readings);
  return measured;
}

async function expectAll(connection: InfluxConnection, readings: number): Promise<void> {
  const [table] = await connection.query('SELECT count(temperature_C) FROM reading');
  const kept = table?.values?.[0]?.[1];
  if (kept !== readings) throw new Error(`readings in InfluxDB: expected ${readings}, got ${String(kept)}`);
}

const perSecond = (readings: number, begun: number): Measured => ({
  value: readings / ((performance.now() - begun) / 1000),
});
