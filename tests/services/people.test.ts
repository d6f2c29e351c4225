/**
 * People told and heard for real: the built program, probes over MQTT, a gateway for short messages, a mail server, a
 * lamp; and `kill -9` while messages are under way.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import mqtt, { type MqttClient } from 'mqtt';
import { expect, onTestFinished, test } from 'vitest';
import { ARCHIVE_SCHEMA, openDatabase } from '../../services/archive/index.js';
import { REGISTRY_SCHEMA } from '../../services/registry/index.js';
import { splitIntoParts } from '../../services/senders/gsm/segments.js';
import { MailServer, readLetter } from '../senders/mail-server.js';
import { Receiver } from '../senders/receiver.js';
import { temporaryDirectory } from '../support/open.js';
import { type Running, run, start } from '../support/processes.js';
import { makeSeason, SHORT_SEASON } from '../support/season.js';
import { freePort } from './mosquitto.js';

const season = makeSeason();
const KEEPER = '+260970000001';
const LAMP = 'sandlarder/v1/test-ridge/beds/pit-t/alarm';

const SITE = {
  ...(season.site as object),
  people: [
    { id: 'keeper-t', name: 'Amina', language: 'sw', reach: [{ via: 'sms', to: KEEPER }] },
    { id: 'lead-t', name: 'Lead', lead: true, reach: [{ via: 'email', to: 'lead@store.example' }] },
  ],
};

interface Setting {
  readonly gateway: Receiver;
  readonly mail: MailServer;
  readonly directory: string;
  launch(): Promise<{ service: Running; http: string }>;
  client(): MqttClient;
}

async function setUp(): Promise<Setting> {
  const gateway = await Receiver.start();
  const mail = await MailServer.start();
  onTestFinished(async () => {
    await gateway.stop();
    await mail.stop();
  });
  const directory = temporaryDirectory();
  const file = (name: string, json: unknown): string => {
    writeFileSync(join(directory, name), JSON.stringify(json));
    return join(directory, name);
  };
  expect((await run(['load', file('site.json', SITE), '--data', directory])).code).toBe(0);
  const [httpPort, mqttPort] = [await freePort(), await freePort()];
  const settings = file('gateway.json', {
    ...{ url: `${gateway.origin}/send`, contentType: 'json' },
    body: { to: '<<to>>', text: '<<text>>', key: '<<key>>' },
    receive: { in: 'form', from: 'from', text: 'text' },
  });
  const http = `http://127.0.0.1:${httpPort}`;
  const args = [
    ...['serve', '--data', directory, '--listen', `127.0.0.1:${httpPort}`],
    ...['--mqtt-listen', `127.0.0.1:${mqttPort}`, '--sms-gateway', settings, '--public-url', http],
    ...['--mail-from', 'alarms@store.example'],
  ];
  return {
    ...{ gateway, mail, directory },
    launch: async () => {
      // On the loopback no TLS is asked for.
      const service = start(args, { SANDLARDER_SMTP_URL: `smtp://127.0.0.1:${mail.port}` });
      await service.said(/ready: /);
      return { service, http };
    },
    client: () => {
      const client = mqtt.connect(`mqtt://127.0.0.1:${mqttPort}`, { reconnectPeriod: 50 });
      onTestFinished(async () => {
        await client.endAsync(true);
      });
      return client;
    },
  };
}

const publish = (client: MqttClient): Promise<unknown> =>
  Promise.all(season.messages.map(({ topic, payload }) => client.publishAsync(topic, payload, { qos: 1 })));

interface Sms {
  readonly to: string;
  readonly text: string;
  readonly key: string;
}
const smsOf = ({ requests }: Receiver): Sms[] => requests.map(({ body }) => JSON.parse(body) as Sms);

/** Asks again until it is so; the test's own time limit ends a wait in vain. */
async function until(isSo: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await isSo())) await wait(50);
}

const allSent = (http: string) => async (): Promise<boolean> => {
  const health = (await (await fetch(`${http}/api/health`)).json()) as Record<string, unknown>;
  const last = SHORT_SEASON.startAt + (SHORT_SEASON.days - 1) * 86_400_000;
  const { hours } = health['watchLag'] as { hours: number };
  return Date.parse(String(health['newestReadingAt'])) >= last && hours < 1 && health['outboxWaiting'] === 0;
};

const answerBy = (http: string, text: string): Promise<Response> =>
  fetch(`${http}/api/messages`, { method: 'POST', body: new URLSearchParams({ from: KEEPER, text }) });

test('a keeper is told in Swahili in one short message and answers it; the lamp and the lead follow', async () => {
  const { gateway, mail, launch, client } = await setUp();
  const { http } = await launch();
  const probes = client();
  let lamp = '';
  probes.on('message', (topic, payload) => {
    if (topic === LAMP) lamp = payload.toString();
  });
  await probes.subscribeAsync(LAMP, { qos: 1 });
  await publish(probes);
  await until(allSent(http));

  const told = smsOf(gateway);
  expect(told.length).toBeGreaterThan(0);
  expect(told.every(({ to }) => to === KEEPER)).toBe(true);
  const unpack = told.filter(({ key }) => /unpack.*\/raised$/.test(key));
  expect(unpack.length).toBeGreaterThan(0);
  for (const { text } of unpack) {
    expect(text).toMatch(/^Pit T: /);
    expect(splitIntoParts(text, 0)).toHaveLength(1);
  }
  expect(unpack.some(({ text }) => /mchanga/i.test(text))).toBe(true);
  expect(JSON.parse(lamp)).toMatchObject({ action: 'unpack', state: 'unacknowledged' });

  const numbers = new Set(
    told.flatMap(({ text }) => [...text.matchAll(/OK (\d+)/g)].map(([, number]) => number)),
  );
  expect(numbers.size).toBeGreaterThan(0);
  for (const number of numbers) expect((await answerBy(http, `sawa ${number}`)).status).toBe(204);
  await until(() => lamp !== '' && JSON.parse(lamp).state === 'acknowledged');
  const answers = (await (await fetch(`${http}/api/answers`)).json()) as {
    person: string;
    outcome: string;
  }[];
  expect(answers).toHaveLength(numbers.size);
  for (const answer of answers)
    expect(answer).toMatchObject({ person: 'keeper-t', outcome: expect.stringMatching(/^seen: /) });

  const links = mail.letters.flatMap(({ to, raw }) => {
    expect(to).toEqual(['lead@store.example']);
    return /http:\S+\/answer\?t=\S+/.exec(readLetter(raw).text) ?? [];
  });
  const link = links.at(-1) ?? '';
  expect(await (await fetch(link)).text()).toMatch(/<form method="post">/);
  const use = () => fetch(link, { method: 'POST', body: new URLSearchParams({ answer: 'quiet' }) });
  expect((await use()).status).toBe(200);
  const again = await use();
  expect([again.status, again.headers.get('content-type')]).toEqual([409, 'text/html; charset=utf-8']);

  const at = new Date(SHORT_SEASON.startAt + SHORT_SEASON.days * 86_400_000).toISOString();
  const found = { at, by: 'Amina', opened: true, repacked: true, found: ['rot', 'damp'] };
  const inspected = await fetch(`${http}/api/beds/pit-t/inspections`, {
    ...{ method: 'POST', body: JSON.stringify(found) },
    headers: { 'content-type': 'application/json' },
  });
  expect(inspected.status).toBe(201);
  await until(() => lamp === '');
});

test('killed while messages are under way: none is lost, and one that comes twice has the same key', async () => {
  const { gateway, directory, launch, client } = await setUp();
  const [answer] = gateway.answers;
  // It takes what it is sent and says nothing.
  gateway.answers = [() => undefined];
  const first = await launch();
  const probes = client();
  await publish(probes);
  await until(() => gateway.requests.length > 0);
  await first.service.kill();
  if (answer) gateway.answers = [answer];
  const second = await launch();
  await until(allSent(second.http));
  expect(await second.service.stop()).toBe(0);

  const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  onTestFinished(() => void database.close());
  const rows = (sql: string): string[] => database.prepare(sql).pluck().all() as string[];
  const written = rows("SELECT key FROM outbox WHERE via = 'sms'");
  const sent = smsOf(gateway).map(({ key }) => key);
  expect(new Set(sent)).toEqual(new Set(written));
  expect(sent.length).toBeGreaterThan(written.length);
  for (const key of written) expect(sent.filter((one) => one === key).length).toBeLessThanOrEqual(2);
  // Nothing was planned twice: no event of an alarm is told to a person by two messages.
  expect(rows('SELECT alarm FROM told GROUP BY alarm, person, event HAVING count(*) > 1')).toEqual([]);
  expect(rows('SELECT message FROM told LEFT JOIN outbox ON key = message WHERE key IS NULL')).toEqual([]);
  const unpacks = rows("SELECT id FROM alarm WHERE action = 'unpack' AND withdrawn = 0");
  expect(rows("SELECT DISTINCT alarm FROM told WHERE person = 'keeper-t'")).toEqual(
    expect.arrayContaining(unpacks),
  );
});
