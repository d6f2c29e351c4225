/** `serve --influx` as a process: it and the server are killed while readings come in over MQTT. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import mqtt, { type MqttClient } from 'mqtt';
import { expect, onTestFinished, test } from 'vitest';
import { parseInfluxUrl } from '../../services/archive/influx/address.js';
import { InfluxConnection } from '../../services/archive/influx/index.js';
import { startInfluxd } from '../support/influxd.js';
import { temporaryDirectory } from '../support/open.js';
import { type Running, run, start } from '../support/processes.js';
import { type Message, makeSeason } from '../support/season.js';
import { inBatches } from '../support/station.js';
import { freePort } from './mosquitto.js';

interface Health {
  readonly status: string;
  readonly problems: readonly string[];
  readonly longArchive: { readonly waiting: number; readonly refused: number };
}

test('what was acknowledged is in InfluxDB once, whoever was killed meanwhile', async () => {
  const influxd = await startInfluxd();
  onTestFinished(() => influxd.dispose());
  const url = `${influxd.url}/sand`;
  expect((await run(['archive', 'setup', '--influx', url])).code).toBe(0);
  const season = makeSeason();
  const messages = season.messages.slice(0, 1500);
  const directory = temporaryDirectory();
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(season.site));
  expect((await run(['load', file, '--data', directory])).code).toBe(0);
  const port = await freePort();
  const launch = async (): Promise<Running> => {
    const listen = ['--listen', '127.0.0.1:0', '--mqtt-listen', `127.0.0.1:${port}`];
    const service = start(['serve', '--data', directory, ...listen, '--influx', url]);
    await service.said(/questions at/);
    return service;
  };
  let service = await launch();
  const [one = [], two = [], three = []] = inBatches(messages, 500);
  await publish(port, one);
  await service.kill();
  service = await launch();
  await influxd.kill();
  await publish(port, two);
  await until(service, ({ longArchive }) => longArchive.waiting > 0);
  await service.kill();
  await influxd.start();
  service = await launch();
  await publish(port, three);
  await until(service, ({ longArchive, status }) => longArchive.waiting === 0 && status === 'ok');
  await service.stop();
  const database = new Database(join(directory, 'sandlarder.db'), { readonly: true });
  onTestFinished(() => void database.close());
  const rows = database.prepare('SELECT count(*), sum(temperature) FROM reading').raw().get() as number[];
  const asking = new InfluxConnection(parseInfluxUrl(url));
  onTestFinished(() => asking.close());
  const [table] = await asking.query('SELECT count(temperature_C), sum(temperature_C) FROM reading');
  expect(rows[0]).toBe(messages.length);
  expect(table?.values?.[0]?.[1]).toBe(rows[0]);
  expect(table?.values?.[0]?.[2]).toBeCloseTo(rows[1] as number, 3);
});

/** Resolves when all of them are acknowledged. */
async function publish(port: number, messages: readonly Message[]): Promise<void> {
  const client: MqttClient = await mqtt.connectAsync(`mqtt://127.0.0.1:${port}`);
  await Promise.all(messages.map(({ topic, payload }) => client.publishAsync(topic, payload, { qos: 1 })));
  await client.endAsync();
}

async function until(service: Running, holds: (health: Health) => boolean): Promise<void> {
  const [, http] = await service.said(/questions at (\S+)\/api/);
  let health: Health | undefined;
  for (let tries = 0; tries < 600; tries += 1) {
    health = (await (await fetch(`${http}/api/health`)).json()) as Health;
    if (holds(health)) return;
    await pause(50);
  }
  throw new Error(`never came about: ${JSON.stringify(health)}`);
}
