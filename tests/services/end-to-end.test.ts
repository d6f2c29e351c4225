/** From a probe's message to a keeper's lamp, console and question, with the real program and both kinds of broker. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import mqtt, { type MqttClient } from 'mqtt';
import { describe, expect, onTestFinished, test } from 'vitest';
import { temporaryDirectory } from '../support/open.js';
import { type Running, run, start } from '../support/processes.js';
import { makeSeason, SHORT_SEASON } from '../support/season.js';
import { freePort, startMosquitto } from './mosquitto.js';

const season = makeSeason();
const LAMP = 'sandlarder/v1/test-ridge/beds/pit-t/alarm';

interface Setting {
  readonly service: Running;
  readonly http: string;
  readonly brokerUrl: string;
}

async function withBuiltIn(protocol: number): Promise<Setting & { protocol: number }> {
  const port = await freePort();
  return { ...(await launch(['--mqtt-listen', `127.0.0.1:${port}`], `mqtt://127.0.0.1:${port}`)), protocol };
}

async function withMosquitto(): Promise<Setting & { protocol: number }> {
  const broker = await startMosquitto();
  onTestFinished(() => broker.dispose());
  return { ...(await launch(['--broker', broker.url], broker.url)), protocol: 4 };
}

async function launch(args: string[], brokerUrl: string): Promise<Setting> {
  const directory = temporaryDirectory();
  const file = join(directory, 'site.json');
  writeFileSync(file, JSON.stringify(season.site));
  expect((await run(['load', file, '--data', directory])).code).toBe(0);
  const service = start(['serve', '--data', directory, '--listen', '127.0.0.1:0', ...args]);
  const [, http = ''] = await service.said(/questions at (\S+)\/api/);
  return { service, http, brokerUrl };
}

function connect({ brokerUrl, protocol }: { brokerUrl: string; protocol: number }): MqttClient {
  const client = mqtt.connect(brokerUrl, { protocolVersion: protocol as 4 | 5 });
  onTestFinished(async () => {
    await client.endAsync(true);
  });
  return client;
}

/** Payloads of the lamp topic as they come. */
function lamp(client: MqttClient) {
  const payloads: string[] = [];
  const waiting = new Set<() => void>();
  client.on('message', (topic, payload) => {
    if (topic !== LAMP) return;
    payloads.push(payload.toString());
    for (const look of waiting) look();
  });
  client.subscribe(LAMP, { qos: 1 });
  return {
    shows: (holds: (payload: string) => boolean) =>
      new Promise<string>((resolve) => {
        const look = (): void => {
          const last = payloads.at(-1);
          if (last === undefined || !holds(last)) return;
          waiting.delete(look);
          resolve(last);
        };
        waiting.add(look);
        look();
      }),
  };
}

const post = async (
  url: string,
  body: unknown,
): Promise<{ status: number; body: Record<string, unknown> }> => {
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
};

describe.each([
  ['the built-in broker, MQTT 3.1.1', () => withBuiltIn(4)],
  ['the built-in broker, MQTT 5', () => withBuiltIn(5)],
  ['a Mosquitto', withMosquitto],
] as const)('%s', (_, setUp) => {
  test('a hot bed lights the lamp, is told and asked for, and goes out when it was repacked', async () => {
    const setting = await setUp();
    const client = connect(setting);
    const shown = lamp(client);
    await Promise.all(
      season.messages.map(({ topic, payload }) => client.publishAsync(topic, payload, { qos: 1 })),
    );

    const lit = JSON.parse(
      await shown.shows((payload) => payload.includes('"damp"') || payload.includes('"heating"')),
    );
    expect(lit).toMatchObject({ bed: 'pit-t', action: 'unpack', state: 'unacknowledged', clearedAt: null });
    await setting.service.said(/Pit T: sand .* too warm\. .*Open and unpack today\./);
    await setting.service.said(/Pit T: damp sand\. Open and unpack today\./);

    const alarms = (await (await fetch(`${setting.http}/api/alarms?bed=pit-t`)).json()) as { id: string }[];
    const ids = new Map(alarms.map(({ id }) => [id.split('.').slice(2, 4).join(' '), id]));
    expect([...ids.keys()]).toEqual(
      expect.arrayContaining(['damp unpack', 'wetting unpack', 'heating unpack']),
    );
    const acknowledged = await post(`${setting.http}/api/alarms/${ids.get('damp unpack')}/acknowledge`, {
      by: 'keeper',
      note: 'on my way',
    });
    expect(acknowledged).toMatchObject({ status: 200, body: { state: 'acknowledged' } });

    const at = new Date(SHORT_SEASON.startAt + SHORT_SEASON.days * 86_400_000).toISOString();
    const found = { at, by: 'keeper', opened: true, repacked: true, found: ['rot', 'damp'] };
    expect((await post(`${setting.http}/api/beds/pit-t/inspections`, found)).status).toBe(201);
    await shown.shows((payload) => payload === '');
    // A look that opened the bed answers what is open then; what was over before it stays to be acknowledged.
    const after = (await (await fetch(`${setting.http}/api/alarms`)).json()) as {
      state: string;
      clearedAt: string;
    }[];
    expect(after).toHaveLength(alarms.length);
    for (const { state, clearedAt } of after)
      expect(state).toBe(clearedAt >= at.slice(0, 19) ? 'normal' : 'returned-unacknowledged');
    expect(new Set(after.map(({ state }) => state)).size).toBe(2);

    const late = lamp(connect(setting));
    expect(await Promise.race([late.shows(() => true), setting.service.stop()])).toBe(0);
  });
});

test('health, metrics and the plot follow the readings', async () => {
  const setting = await withBuiltIn(4);
  const client = connect(setting);
  await Promise.all(
    season.messages
      .slice(0, 2000)
      .map(({ topic, payload }) => client.publishAsync(topic, payload, { qos: 1 })),
  );
  const metrics = await (await fetch(`${setting.http}/metrics`)).text();
  expect(metrics).toMatch(/^sandlarder_readings_kept_total 4000$/m);
  const health = (await (await fetch(`${setting.http}/api/health`)).json()) as Record<string, unknown>;
  expect(health).toMatchObject({ status: 'ok', problems: [], watchLag: { beds: 0, hours: 0 } });
  const series = (await (await fetch(`${setting.http}/api/beds/pit-t/readings?points=50`)).json()) as {
    probes: { probe: string; time: string[]; expected_C: (number | null)[] }[];
  };
  expect(series.probes.map(({ probe }) => probe)).toEqual(['p01', 'p02', 'p03']);
  for (const { time } of series.probes) expect(time.length).toBeLessThanOrEqual(50);
  expect(series.probes[0]?.expected_C.some((value) => value !== null)).toBe(true);
});

test('what is not as expected is kept aside, and the probe goes on', async () => {
  const setting = await withBuiltIn(4);
  const client = connect(setting);
  const topic = 'sandlarder/v1/test-ridge/probes/p01/readings';
  const ahead = Date.now() / 1000 + 7200;
  const bad = [
    '{',
    '[]',
    '[{"n":"temperature","u":"F","v":70}]',
    `[{"n":"temperature","u":"Cel","v":20,"t":${ahead}}]`,
  ];
  for (const payload of bad) await client.publishAsync(topic, payload, { qos: 1 });
  await client.publishAsync('kitchen/light', 'on', { qos: 0 });
  await client.publishAsync(topic, '[{"n":"temperature","u":"Cel","v":20}]', { qos: 1 });
  const kept = (await (await fetch(`${setting.http}/api/quarantine`)).json()) as {
    reason: string;
    detail: string;
  }[];
  expect(kept.map(({ reason }) => reason).sort()).toEqual(
    ['not-json', 'not-senml', 'time-in-future', 'topic-unknown', 'unit-unknown'].sort(),
  );
  for (const { detail } of kept) expect(detail).toMatch(/expected/);
  const beds = (await (await fetch(`${setting.http}/api/beds`)).json()) as {
    probes: { latest: { temperature_C: number } }[];
  }[];
  expect(beds[0]?.probes[0]?.latest.temperature_C).toBe(20);
});
