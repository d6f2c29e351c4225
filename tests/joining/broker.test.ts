/** The broker as a service opens it: who is let in, by which rules it listens, and secrets that change while it runs. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { createMetrics } from '../../services/http/index.js';
import { DeviceSecretDesk } from '../../services/joining/access/device-secrets.js';
import { openBroker } from '../../services/joining/broker.js';
import { readServeSettings, type ServeFlags } from '../../services/settings.js';
import { closeOf, connectClient, OpenSink, READINGS } from '../intake/clients.js';
import { openStation } from '../support/station.js';

const SITE = {
  version: 1,
  site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
  probes: [{ id: 'p01' }, { id: 'p02' }],
};
const P01 = { kind: 'probe', site: 'ridge-station', id: 'p01' } as const;
const STATION = { SANDLARDER_MQTT_USER: 'station', SANDLARDER_MQTT_PASSWORD: 'dry sand over roots' };

/** @param secrets how many probes have one before it starts */
async function aBroker(flags: Partial<ServeFlags> = {}, environment = {}, secrets = 0) {
  const { registry, load } = openStation();
  load(SITE);
  const desk = new DeviceSecretDesk(registry, Date.now);
  const made = ['p01', 'p02'].slice(0, secrets).map((id) => desk.make({ ...P01, id }).secret);
  const all = { data: '', listen: '127.0.0.1:0', mqttListen: '127.0.0.1:0', ...flags };
  const [sink, said, metrics] = [new OpenSink(), [] as [string, string?][], createMetrics('0.1.0')];
  const broker = await openBroker({
    ...{ settings: readServeSettings(all, environment), sink, registry, metrics },
    ...{ log: (line, kind) => said.push([line, ...(kind === undefined ? [] : [kind])] as [string, string?]) },
    onConnected: () => undefined,
  });
  onTestFinished(() => broker.close());
  const connect = async (username?: string, password?: string) => {
    const client = await connectClient(Number(new URL(broker.url).port), {
      ...(username !== undefined && { username }),
      ...(password !== undefined && { password }),
    });
    onTestFinished(() => client.endAsync(true));
    return client;
  };
  return { broker, desk, connect, sink, said, metrics, secrets: made };
}

const USER = 'ridge-station.p01';
const WRONG = { code: 4 };

describe('where only this machine reaches it and the station has no password', () => {
  test('nobody is asked, but whoever shows the name of a device shows its secret', async () => {
    const { connect, sink, secrets, broker, said, metrics } = await aBroker({}, {}, 1);
    for (const [user, password] of [[], ['anybody'], ['anybody', 'x'], ['ridge-station.p02', 'x']])
      await (await connect(user, password)).publishAsync('weather', 'x', { qos: 1 });
    await expect(connect(USER, 'wrong')).rejects.toMatchObject(WRONG);
    const probe = await connect(USER, secrets[0]);
    await probe.publishAsync(READINGS, 'pack', { qos: 1 });
    expect(sink.topics.at(-1)).toBe(READINGS);
    const closed = closeOf(probe);
    probe.publish('weather', 'x');
    await closed;
    expect(broker.refused).toEqual({ connect: 1, publish: 1, subscribe: 0 });
    expect(said.map(([, kind]) => kind)).toEqual(['mqtt connect', 'mqtt publish']);
    expect((await metrics.text()).text).toMatch(/sandlarder_broker_refused_total\{what="publish"\} 1\n/);
  });
});

describe('where the station has a user and a password', () => {
  test('they go on working, beside secrets of devices, and nobody else is let in', async () => {
    const { connect, sink, secrets } = await aBroker({}, STATION, 1);
    const { SANDLARDER_MQTT_USER: user, SANDLARDER_MQTT_PASSWORD: password } = STATION;
    const station = await connect(user, password);
    await station.publishAsync(READINGS.replace('p01', 'p02'), 'pack', { qos: 1 });
    await (await connect(USER, secrets[0])).publishAsync(READINGS, 'pack', { qos: 1 });
    expect(sink.topics).toHaveLength(2);
    for (const [name, shown] of [[], [user], [user, 'x'], [USER, password], ['ridge-station.p02', password]])
      await expect(connect(name, shown)).rejects.toMatchObject(WRONG);
  });
});

describe('secrets that change while it runs', () => {
  test('a new one is taken at once; renewed or revoked, connections by the one before end at the next look', async () => {
    const { connect, desk, broker } = await aBroker({}, STATION);
    const first = desk.make(P01).secret;
    const [probe, other] = [
      await connect(USER, first),
      await connect('ridge-station.p02', desk.make({ ...P01, id: 'p02' }).secret),
    ];
    broker.look();
    await probe.publishAsync(READINGS, 'pack', { qos: 1 });
    const ended = closeOf(probe);
    const second = desk.make(P01).secret;
    broker.look();
    await ended;
    await expect(connect(USER, first)).rejects.toMatchObject(WRONG);
    const again = await connect(USER, second);
    const endedToo = closeOf(again);
    desk.revoke(P01);
    broker.look();
    await endedToo;
    await expect(connect(USER, second)).rejects.toMatchObject(WRONG);
    await other.publishAsync(READINGS.replace('p01', 'p02'), 'still here', { qos: 1 });
  });
});

describe('where other machines reach it', () => {
  const WIDE = { mqttListen: '0.0.0.0:0', plainPasswords: true };

  test('secrets of probes are enough, and nobody is let in without one, not from this machine either', async () => {
    const { connect, secrets } = await aBroker(WIDE, {}, 1);
    await connect(USER, secrets[0]);
    for (const [name, shown] of [[], ['anybody', 'x'], [USER, 'x']])
      await expect(connect(name, shown)).rejects.toMatchObject(WRONG);
  });

  test.each<[string, Partial<ServeFlags>, object, number, RegExp]>([
    ['without anything to show', WIDE, {}, 0, /0\.0\.0\.0:0.*SANDLARDER_MQTT_USER.*sandlarder probe secret/],
    ['by every address of IPv6', { ...WIDE, mqttListen: '[::]:0' }, {}, 0, /\[::\]:0.*SANDLARDER_MQTT_USER/],
    [
      'with passwords in the clear',
      { mqttListen: '0.0.0.0:0' },
      STATION,
      0,
      /in the clear.*--mqtts-listen.*--plain-passwords/,
    ],
    ['with secrets in the clear', { mqttListen: '10.0.0.7:0' }, {}, 1, /10\.0\.0\.7:0.*in the clear/],
    [
      'behind a proxy, which speaks TLS for HTTP alone',
      { mqttListen: '0.0.0.0:0', behindProxy: true },
      STATION,
      0,
      /in the clear/,
    ],
    [
      'by TLS without anything to show',
      { mqttsListen: '0.0.0.0:8883', tlsCert: 'c.pem', tlsKey: 'k.pem' },
      {},
      0,
      /0\.0\.0\.0:8883, which other machines can reach, without/,
    ],
  ])('%s it refuses to start', async (_what, flags, environment, secrets, message) => {
    await expect(aBroker(flags, environment, secrets)).rejects.toMatchObject({
      code: 'LISTEN_REFUSED',
      message: expect.stringMatching(message),
    });
  });
});
