/**
 * `kill -9` at random moments of a season being taken in, with a real process, a real file and, in the second
 * case, a real Mosquitto: nothing acknowledged is lost, nothing is stored twice, and the alarms are those of a run
 * that nobody disturbed.
 */
import { writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import mqtt, { type MqttClient } from 'mqtt';
import { expect, onTestFinished, test } from 'vitest';
import { ARCHIVE_SCHEMA, openDatabase } from '../../services/archive/index.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { temporaryDirectory } from '../support/open.js';
import { type Running, run, start } from '../support/processes.js';
import { type Message, makeSeason, seeded } from '../support/season.js';
import { inBatches, openStation } from '../support/station.js';
import { freePort, startMosquitto } from './mosquitto.js';

/** In each of two ways; `SANDLARDER_KILLS=200` for a long run. */
const KILLS = Number(process.env['SANDLARDER_KILLS'] ?? 6);
const season = makeSeason();

/** Alarms of a run that nobody disturbed, in this process. */
function undisturbed(): string {
  const station = openStation();
  station.load(season.site);
  for (const batch of inBatches(season.messages, 500)) station.commit(batch);
  station.settle();
  return station.alarmText();
}

async function loadedDirectory(): Promise<string> {
  const directory = temporaryDirectory();
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(season.site));
  const { code, stderr } = await run(['load', file, '--data', directory]);
  expect(stderr).toBe('');
  expect(code).toBe(0);
  return directory;
}

/** Everything in the data directory, looked at after the last process has ended. */
function atRest(directory: string): { rows: number; alarms: string; told: string[]; outbox: number } {
  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  const rows = database.prepare('SELECT count(*) FROM reading').pluck().get() as number;
  const outbox = database.prepare('SELECT count(*) FROM outbox').pluck().get() as number;
  database.close();
  const station = openStation({ directory });
  station.station.refresh();
  const told = station.registry.alarms.list({ limit: 1000 }).rows.map(({ id }) => id);
  return { rows, alarms: station.alarmText(), told, outbox };
}

/** A receiver that counts what it is told by key. */
async function receiver(): Promise<{ url: string; keys: Map<string, number> }> {
  const keys = new Map<string, number>();
  const server = createServer((request: IncomingMessage, response) => {
    let body = '';
    request.on('data', (chunk: Buffer) => {
      body += chunk.toString();
    });
    request.on('end', () => {
      const { key } = JSON.parse(body) as { key: string };
      keys.set(key, (keys.get(key) ?? 0) + 1);
      response.end();
    });
  }).listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  onTestFinished(() => {
    server.close();
  });
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, keys };
}

const startService = async (args: readonly string[]): Promise<Running> => {
  const service = start(['serve', '--listen', '127.0.0.1:0', ...args]);
  await service.said(/ready: /);
  return service;
};

/** Publishes in order, again and again until each message was acknowledged; the window keeps some under way. */
async function publishAll(
  connect: () => MqttClient,
  messages: readonly Message[],
  window: number,
): Promise<number> {
  let acknowledged = 0;
  let client = connect();
  const queue = [...messages];
  const worker = async (): Promise<void> => {
    for (let message = queue.shift(); message; message = queue.shift()) {
      for (let done = false; !done; ) {
        try {
          await client.publishAsync(message.topic, message.payload, { qos: 1 });
          done = true;
        } catch {
          await wait(20);
          if (client.disconnected && !client.reconnecting) client = connect();
        }
      }
      acknowledged += 1;
    }
  };
  await Promise.all(Array.from({ length: window }, worker));
  await client.endAsync();
  return acknowledged;
}

/** Kills and restarts the service at random moments while the work goes on. */
async function killWhile(
  working: Promise<unknown>,
  launch: () => Promise<Running>,
  random: () => number,
): Promise<{ service: Running; kills: number }> {
  let finished = false;
  void working.finally(() => {
    finished = true;
  });
  let service = await launch();
  let kills = 0;
  while (kills < KILLS || !finished) {
    await wait(20 + random() * 300);
    if (kills >= KILLS) continue;
    await service.kill();
    kills += 1;
    service = await launch();
  }
  return { service, kills };
}

test('the built-in broker: what was acknowledged survives kill after kill', async () => {
  const directory = await loadedDirectory();
  const told = await receiver();
  const port = await freePort();
  const launch = (): Promise<Running> =>
    startService(['--data', directory, '--mqtt-listen', `127.0.0.1:${port}`, '--webhook', told.url]);
  const connect = (): MqttClient =>
    mqtt.connect(`mqtt://127.0.0.1:${port}`, {
      reconnectPeriod: 50,
      connectTimeout: 2000,
      clientId: 'gateway',
    });
  const publishing = paced(connect);
  const { service, kills } = await killWhile(publishing, launch, seeded(1));
  expect(await publishing).toBe(season.messages.length);
  await settled(service);
  expect(await service.stop()).toBe(0);
  expect(kills).toBe(KILLS);
  expectWhole(directory, told.keys);
});

test('a real Mosquitto: what it was told is kept survives kill after kill', async () => {
  const directory = await loadedDirectory();
  const told = await receiver();
  const broker = await startMosquitto();
  onTestFinished(() => broker.dispose());
  const launch = (): Promise<Running> =>
    startService(['--data', directory, '--broker', broker.url, '--webhook', told.url]);
  const first = await launch();
  await connected(first);
  const connect = (): MqttClient => mqtt.connect(broker.url, { reconnectPeriod: 50, clientId: 'gateway' });
  await first.kill();
  const publishing = paced(connect);
  const { service, kills } = await killWhile(publishing, launch, seeded(2));
  expect(await publishing).toBe(season.messages.length);
  await connected(service);
  await settled(service);
  expect(await service.stop()).toBe(0);
  expect(kills).toBe(KILLS);
  expectWhole(directory, told.keys);
});

/** The season in parts with a breath between them, so that it lasts as long as the kills. */
async function paced(connect: () => MqttClient): Promise<number> {
  let acknowledged = 0;
  for (const part of inBatches(season.messages, Math.ceil(season.messages.length / (KILLS * 2)))) {
    acknowledged += await publishAll(connect, part, 30);
    await wait(100);
  }
  return acknowledged;
}

function expectWhole(directory: string, keys: ReadonlyMap<string, number>): void {
  const { rows, alarms, outbox, told } = atRest(directory);
  expect(rows).toBe(season.messages.length);
  expect(alarms).toBe(undisturbed());
  // No alarm was told twice as raised, and the receiver has every message of the outbox and no other.
  expect(told.length).toBeGreaterThan(0);
  for (const id of told)
    expect([...keys.keys()].filter((key) => key.startsWith(`${id}/raised/`)).length).toBeLessThanOrEqual(1);
  expect(keys.size).toBe(outbox / 2);
}

async function health(service: Running): Promise<Record<string, unknown>> {
  const [, url] = await service.said(/questions at (\S+)\/api/);
  return (await (await fetch(`${url}/api/health`)).json()) as Record<string, unknown>;
}

async function until(service: Running, holds: (health: Record<string, unknown>) => boolean): Promise<void> {
  for (let tries = 0; tries < 600; tries += 1) {
    if (holds(await health(service))) return;
    await wait(50);
  }
  throw new Error(`never came about: ${JSON.stringify(await health(service))}`);
}

const connected = (service: Running): Promise<void> =>
  until(service, ({ broker }) => (broker as { connected: boolean }).connected);

/** Nothing waits to be judged or told, and the season's last reading is there. */
const settled = (service: Running): Promise<void> => {
  const last = JSON.parse(season.messages.at(-1)?.payload ?? '[]') as { bt: number }[];
  return until(
    service,
    ({ newestReadingAt, watchLag, outboxWaiting }) =>
      Date.parse(String(newestReadingAt)) / 1000 >= (last[0]?.bt ?? 0) &&
      (watchLag as { hours: number }).hours < 1 &&
      outboxWaiting === 0,
  );
};
