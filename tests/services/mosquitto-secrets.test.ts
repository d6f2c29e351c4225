/** The files that `sandlarder probe mosquitto` writes, with a real Mosquitto and its own clients. */
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { expect, onTestFinished, test } from 'vitest';
import { mosquitto } from '../../services/commands/probe/mosquitto.js';
import { make, revoke } from '../../services/commands/probe/secrets.js';
import { connectExternalBroker, type ExternalBroker } from '../../services/intake/index.js';
import { loadSite } from '../../services/load.js';
import { OpenSink } from '../intake/clients.js';
import { temporaryDirectory } from '../support/open.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { startMosquitto } from './mosquitto.js';

const STATION = { user: 'station', password: 'dry sand over roots' };
const ENVIRONMENT = { SANDLARDER_MQTT_USER: STATION.user, SANDLARDER_MQTT_PASSWORD: STATION.password };
const OF = (probe: string): string => `sandlarder/v1/test-ridge/probes/${probe}`;
const ALARM = 'sandlarder/v1/test-ridge/beds/pit-t/alarm';

async function aStation() {
  const data = temporaryDirectory();
  loadSite(data, 'site.json', siteOf(SHORT_SEASON), Date.now());
  const secrets = new Map<string, string>();
  const kept = (line: string): void => {
    for (const { user, secret } of JSON.parse(line)) secrets.set(user, secret);
  };
  make(['p01', 'p02'], { data, json: true }, kept, () => undefined);
  make(['hut'], { data, json: true, lamp: true }, kept, () => undefined);
  const to = temporaryDirectory();
  const write = (): void => mosquitto({ data, to }, () => undefined, ENVIRONMENT);
  write();
  const broker = await startMosquitto({
    allow_anonymous: 'false',
    acl_file: join(to, 'sandlarder.acl'),
    password_file: join(to, 'sandlarder.passwords'),
  });
  onTestFinished(() => broker.dispose());
  const connect = async (username: string, password: string | undefined, version: 4 | 5 = 5) => {
    const shown = { username, ...(password !== undefined && { password }), protocolVersion: version };
    const client = await connectAsync(broker.url, { ...shown, reconnectPeriod: 0 }, false);
    client.on('error', () => undefined);
    onTestFinished(() => client.endAsync(true));
    return client;
  };
  return {
    ...{ data, broker, write, connect, secrets },
    as: (user: string, version?: 4 | 5) => connect(user, secrets.get(user), version),
  };
}

/** What becomes of a message at QoS 1 by MQTT 5: what its PUBACK says. */
const published = (client: MqttClient, topic: string): Promise<string> =>
  client.publishAsync(topic, 'x', { qos: 1 }).then(
    () => 'taken',
    (error: Error) => error.message,
  );

test('a probe publishes in its own name alone, and the service hears all that was allowed', async () => {
  const { broker, as, connect, data, write, secrets } = await aStation();
  const sink = new OpenSink();
  const service = await new Promise<ExternalBroker>((resolve) => {
    const opened = connectExternalBroker({
      ...{ url: broker.url, ...STATION, clientId: 'service', sink, expectSession: false },
      onWarning: () => undefined,
      onConnected: (isConnected) => isConnected && resolve(opened),
    });
    onTestFinished(() => opened.close());
  });

  const [probe, other, lamp] = [
    await as('test-ridge.p01'),
    await as('test-ridge.p02'),
    await as('test-ridge.lamp.hut'),
  ];
  const heardByProbe: string[] = [];
  probe.on('message', (topic) => heardByProbe.push(topic));
  await probe.subscribeAsync('#', { qos: 1 }).catch(() => undefined);
  for (const [user, topic] of [
    ['test-ridge.p01', `${OF('p02')}/readings`],
    ['test-ridge.p01', `${OF('p02')}/status`],
    ['test-ridge.p01', `${OF('p01')}/config`],
    ['test-ridge.p01', ALARM],
    ['test-ridge.lamp.hut', ALARM],
  ] as const)
    expect(await published(await as(user), topic)).toMatch(/Not authorized/);
  // MQTT 3.1.1 has no way to say no: this broker acknowledges what it drops.
  const old = await as('test-ridge.p01', 4);
  expect(await published(old, `${OF('p02')}/readings`)).toBe('taken');
  expect(await published(probe, `${OF('p01')}/readings`)).toBe('taken');
  expect(await published(probe, `${OF('p01')}/status`)).toBe('taken');
  expect(await published(other, `${OF('p02')}/readings`)).toBe('taken');
  await sink.has(3);
  expect(sink.topics).toEqual([`${OF('p01')}/readings`, `${OF('p01')}/status`, `${OF('p02')}/readings`]);

  const seen = new Promise((resolve) => lamp.once('message', resolve));
  await lamp.subscribeAsync('sandlarder/v1/test-ridge/beds/+/alarm', { qos: 1 });
  await service.publish({ topic: ALARM, payload: '{}', qos: 1, retain: true });
  expect(await seen).toBe(ALARM);
  expect(heardByProbe.filter((topic) => !topic.startsWith(`${OF('p01')}/`))).toEqual([]);

  for (const [user, password] of [
    ['test-ridge.p01', secrets.get('test-ridge.p02')],
    ['test-ridge.p01', undefined],
    ['station', 'another'],
    ['anybody', 'x'],
  ] as const)
    await expect(connect(user, password)).rejects.toMatchObject({ code: 0x87 });

  await Promise.all([probe, other, lamp, old].map((client) => client.endAsync(true)));
  revoke(['p01'], { data }, () => undefined);
  write();
  await broker.restart();
  await expect(as('test-ridge.p01')).rejects.toMatchObject({ code: 0x87 });
  expect(await published(await as('test-ridge.p02'), `${OF('p02')}/readings`)).toBe('taken');
}, 60_000);
