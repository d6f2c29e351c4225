/** Devices with a secret of their own at the built-in broker, over real sockets. */
import type { MqttClient } from 'mqtt';
import { describe, expect, test } from 'vitest';
import type { Device } from '../../services/core/model/device.js';
import { deviceUser, mayHear, maySay, topicsOf } from '../../services/core/model/device.js';
import { ANY_SPEAKER, type Authenticate } from '../../services/intake/credentials.js';
import { ALARM, closeOf, nextMessage, OpenSink, READINGS, STATUS, VERSIONS } from './clients.js';
import { openClient, startBroker } from './opened.js';

const P01: Device = { kind: 'probe', site: 'ridge-station', id: 'p01' };
const LAMP: Device = { kind: 'lamp', site: 'ridge-station', id: 'hut' };
const SECRETS = new Map([P01, { ...P01, id: 'p02' }, LAMP].map((device) => [deviceUser(device), device]));

/** Everybody's secret is their own name; the station's user says and hears all. */
const authenticate: Authenticate = (user, password) => {
  if (user === undefined || Buffer.from(password ?? '').toString() !== user) return undefined;
  if (user === 'station') return ANY_SPEAKER;
  const device = SECRETS.get(user);
  return device && { name: user, device, kept: user };
};

async function aDoor() {
  const [sink, refused, warnings]: [OpenSink, string[][], string[]] = [new OpenSink(), [], []];
  const broker = await startBroker(sink, {
    ...{ authenticate, onWarning: (warning: string) => warnings.push(warning) },
    onRefused: (what, sentence) => refused.push([what, sentence]),
  });
  const as = (user: string, options: object = {}): Promise<MqttClient> =>
    openClient(broker.port, { username: user, password: user, ...options });
  return { broker, sink, refused, warnings, as };
}

/** What the SUBACK says of each filter. */
function granted(client: MqttClient, filters: string[]): Promise<unknown> {
  client.subscribe(filters, { qos: 1 }, () => undefined);
  return new Promise((resolve) => {
    client.on('packetreceive', (packet) => {
      if (packet.cmd === 'suback') resolve(packet.granted);
    });
  });
}

/** What is refused is decided behind the translator of MQTT 5: of its cases one is enough. */
const ofVersion = <Case>(version: number, cases: readonly Case[]): readonly Case[] =>
  version === 5 ? cases.slice(0, 1) : cases;

const OTHERS = READINGS.replace('p01', 'p02');

describe.each(VERSIONS)('with MQTT %s', (_name, protocolVersion) => {
  const options = { protocolVersion };

  test('a probe publishes its own readings and its own status, and hears them', async () => {
    const { as, sink, refused } = await aDoor();
    const probe = await as('ridge-station.p01', {
      ...options,
      will: { topic: STATUS, payload: Buffer.from('offline'), qos: 1, retain: true },
    });
    expect(await granted(probe, [READINGS, STATUS])).toEqual([1, 1]);
    const heard = nextMessage(probe);
    await probe.publishAsync(READINGS, 'pack', { qos: 1 });
    expect((await heard).text).toBe('pack');
    await probe.publishAsync(STATUS, 'online', { qos: 1, retain: true });
    probe.stream.destroy();
    await sink.has(3);
    expect(sink.payloads).toEqual(['pack', 'online', 'offline']);
    expect(refused).toEqual([]);
  });

  test.each(
    ofVersion(protocolVersion, [
      ['the readings of another probe', OTHERS],
      ['the status of another probe', STATUS.replace('p01', 'p02')],
      ['its own readings of another site', READINGS.replace('ridge', 'hill')],
      ['something else under its own name', READINGS.replace('readings', 'config')],
      ['an alarm', ALARM],
      ['what nobody knows', 'weather'],
      ['what the broker says of itself', '$SYS/broker/clients'],
    ]),
  )('%s: the connection ends, and nothing is acknowledged, kept or passed on', async (_what, topic) => {
    const { as, sink, refused, warnings } = await aDoor();
    const station = await as('station', options);
    const heard: string[] = [];
    station.on('message', (of) => heard.push(of));
    await station.subscribeAsync('#');
    const next = nextMessage(station);
    const probe = await as('ridge-station.p01', options);
    const reasons: unknown[] = [];
    probe.on('disconnect', ({ reasonCode }) => reasons.push(reasonCode));
    const closed = closeOf(probe);
    let isAcknowledged = false;
    probe.publishAsync(topic, 'x', { qos: 1, retain: true }).then(
      () => {
        isAcknowledged = true;
      },
      () => undefined,
    );
    await closed;
    // Not authorised [MQTT5-3.14.2.1]; 3.1.1 has no way to say so.
    expect(reasons).toEqual(protocolVersion === 5 ? [0x87] : []);
    const other = await as('ridge-station.p02', options);
    await other.publishAsync(OTHERS, 'whole', { qos: 1 });
    await next;
    expect(isAcknowledged).toBe(false);
    expect(sink.topics).toEqual([OTHERS]);
    expect(heard).toEqual([OTHERS]);
    expect(refused).toEqual([['publish', expect.stringContaining(`got ${JSON.stringify(topic)}`)]]);
    expect(refused[0]?.[1]).toContain('refused a message of ridge-station.p01, and ended its connection');
    expect(warnings).toEqual([]);
  });

  test.each(
    ofVersion(protocolVersion, [
      ['all', '#'],
      ['all probes', 'sandlarder/v1/+/probes/+/readings'],
      ['another probe', OTHERS],
      ['the same probe of any site', READINGS.replace('ridge-station', '+')],
      ['all that is under its name', READINGS.replace('readings', '#')],
      ['alarms', ALARM],
      ['the broker itself', '$SYS/#'],
    ]),
  )('a probe may not hear %s: its subscription is refused, and it stays', async (_what, filter) => {
    const { as, refused } = await aDoor();
    const probe = await as('ridge-station.p01', options);
    const heard: string[] = [];
    probe.on('message', (of) => heard.push(of));
    expect(await granted(probe, [filter, STATUS])).toEqual([protocolVersion === 5 ? 0x87 : 0x80, 1]);
    const next = nextMessage(probe);
    await (await as('station', options)).publishAsync(OTHERS, 'pack', { qos: 1 });
    await probe.publishAsync(STATUS, 'online', { qos: 1 });
    await next;
    expect(heard).toEqual([STATUS]);
    expect(refused).toEqual([['subscribe', expect.stringContaining(`got ${JSON.stringify(filter)}`)]]);
  });

  test('a lamp hears the alarms of its site, and says nothing', async () => {
    const { broker, as } = await aDoor();
    const lamp = await as('ridge-station.lamp.hut', options);
    const filters = [ALARM, ALARM.replace('pit-a', '+'), ALARM.replace('ridge', 'hill'), READINGS];
    const no = protocolVersion === 5 ? 0x87 : 0x80;
    expect(await granted(lamp, filters)).toEqual([1, 1, no, no]);
    const heard = nextMessage(lamp);
    await broker.publish({ topic: ALARM, payload: '{}', qos: 1, retain: true });
    expect((await heard).topic).toBe(ALARM);
    const closed = closeOf(lamp);
    lamp.publish(ALARM, '', { qos: 1 });
    await closed;
  });

  // Bad user name or password 4, not authorised 5 [MQTT-3.2.2.3]; 0x86 and 0x87 [MQTT5-3.2.2.2].
  test.each([
    ['no user', {}, 4],
    ['a wrong secret', { username: 'ridge-station.p01', password: 'ridge-station.p02' }, 4],
    ['no secret', { username: 'ridge-station.p01' }, 4],
    ['nobody of that name', { username: 'p01', password: 'p01' }, 4],
    ['a will in the name of another', { ...asP01(), will: willOn(STATUS.replace('p01', 'p02')) }, 5],
    ['a will among readings of another', { ...asP01(), will: willOn(OTHERS) }, 5],
  ])('%s: refused to connect with the code for it, and told', async (_what, shown, code) => {
    const { broker, refused, warnings, sink } = await aDoor();
    await expect(openClient(broker.port, { ...options, ...shown })).rejects.toMatchObject({
      code: protocolVersion === 5 ? 0x82 + code : code,
    });
    expect(refused).toEqual([['connect', expect.stringMatching(/^refused to connect /)]]);
    expect([warnings, sink.topics]).toEqual([[], []]);
  });

  test('no user ends the connection of another by its client id', async () => {
    const { as } = await aDoor();
    const probe = await as('ridge-station.p01', { ...options, clientId: 'same' });
    await as('ridge-station.p02', { ...options, clientId: 'same' });
    await probe.publishAsync(READINGS, 'still here', { qos: 1 });
    const closed = closeOf(probe);
    await as('ridge-station.p01', { ...options, clientId: 'same' });
    await closed;
  });

  test('whoever may be there no more is sent away, with the will sent', async () => {
    const { broker, as, sink } = await aDoor();
    const probe = await as('ridge-station.p01', { ...options, will: willOn(STATUS) });
    const other = await as('ridge-station.p02', options);
    const closed = closeOf(probe);
    broker.endWhere(({ kept }) => kept === 'ridge-station.p01');
    await closed;
    await sink.has(1);
    expect(sink.topics).toEqual([STATUS]);
    await other.publishAsync(OTHERS, 'still here', { qos: 1 });
  });
});

function asP01() {
  return { username: 'ridge-station.p01', password: 'ridge-station.p01' };
}

function willOn(topic: string) {
  return { topic, payload: Buffer.from('offline'), qos: 1, retain: true } as const;
}

test('where secrets cannot be read a connection is refused, and the broker goes on', async () => {
  let fails = true;
  const { port } = await startBroker(new OpenSink(), {
    authenticate: () => {
      if (fails) throw new Error('disk gone');
      return ANY_SPEAKER;
    },
  });
  // Server unavailable [MQTT-3.2.2.3].
  await expect(openClient(port)).rejects.toMatchObject({ code: 3 });
  fails = false;
  await (await openClient(port)).publishAsync(READINGS, 'pack', { qos: 1 });
});

describe('topics of a device', () => {
  test('are those of the contract', () => {
    expect(topicsOf(P01)).toEqual({ says: [READINGS, STATUS], hears: [READINGS, STATUS] });
    expect(topicsOf(LAMP)).toEqual({ says: [], hears: ['sandlarder/v1/ridge-station/beds/+/alarm'] });
  });

  test.each(['', '+', 'sandlarder/v1/ridge-station/beds/#', `${ALARM}/x`, 'sandlarder/v1/+/beds/+/alarm'])(
    'a lamp may not hear %j',
    (filter) => expect(mayHear(LAMP, filter)).toBe(false),
  );

  test('ids that hold one another stay apart', () => {
    expect(maySay({ ...P01, id: 'p0' }, READINGS)).toBe(false);
    expect(maySay({ ...P01, site: 'ridge' }, READINGS)).toBe(false);
    const users = [P01, LAMP, { ...P01, id: 'lamp-hut' }, { ...P01, id: 'hut' }].map(deviceUser);
    expect(new Set(users).size).toBe(4);
  });
});
