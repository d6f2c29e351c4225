/** The subscription at another broker, which here does as it is told. */
import { describe, expect, test } from 'vitest';
import {
  connectExternalBroker,
  type ExternalBroker,
  type ExternalBrokerOptions,
} from '../../services/intake/external-broker.js';
import { PACKET_TYPE } from '../../services/intake/mqtt-packets.js';
import { ALARM, HandSink, OpenSink, READINGS, VERSIONS } from './clients.js';
import { closeAfterwards } from './opened.js';
import { type Answer, connack, ScriptedBroker } from './scripted-broker.js';

/** Attempts follow each other at once. */
const AT_ONCE = { reconnectFirst_ms: 1, reconnectLongest_ms: 2 };

async function bench(answer: Answer, sink = new HandSink(), options: Partial<ExternalBrokerOptions> = {}) {
  const broker = await ScriptedBroker.start(answer);
  closeAfterwards(() => broker.close());
  const warnings: string[] = [];
  const connected: boolean[] = [];
  const service = connectExternalBroker({
    url: `mqtt://127.0.0.1:${broker.port}`,
    clientId: 'sandlarder-test',
    sink,
    limits: AT_ONCE,
    onWarning: (warning) => warnings.push(warning),
    onConnected: (is) => connected.push(is),
    now: () => 4321,
    ...options,
  });
  closeAfterwards(() => service.close());
  return { broker, service, sink, warnings, connected };
}

const accept: Answer = (version) => connack(version, 0, false);
const known: Answer = (version) => connack(version, 0, true);
/** Speaks one version only, and refuses the other with a code. */
const only =
  (spoken: number, refusal: Buffer | undefined): Answer =>
  (version) =>
    version === spoken ? connack(version, 0, false) : refusal;

const filtersOf = (body: Buffer): string => body.toString('latin1');

async function subscribed(service: ExternalBroker, broker: ScriptedBroker, attempt: number) {
  const connection = await broker.connection(attempt);
  await connection.has(PACKET_TYPE.SUBSCRIBE, 2);
  expect(service.connected()).toBe(true);
  return connection;
}

test('asks for a session that stays, under its own name, and for the probe topics', async () => {
  const { broker, service } = await bench(accept, undefined, { user: 'service', password: 'secret' });
  const { received, version, of } = await subscribed(service, broker, 1).then((connection) => ({
    received: connection.received,
    version: connection.version,
    of: (type: number) => connection.of(type),
  }));
  const [connect] = received;
  const flags = connect?.body.readUInt8(7) ?? 0;
  const CLEAN_START = 0x02;
  expect(version).toBe(5);
  expect(flags & CLEAN_START).toBe(0);
  const text = connect?.body.toString('latin1') ?? '';
  for (const part of ['sandlarder-test', 'service', 'secret']) expect(text).toContain(part);
  // Session Expiry Interval, four bytes of ones: never [MQTT5-3.1.2.11.2].
  expect(connect?.body.includes(Buffer.from([0x11, 0xff, 0xff, 0xff, 0xff]))).toBe(true);
  expect(filtersOf(of(PACKET_TYPE.SUBSCRIBE)[0]?.body ?? Buffer.alloc(0))).toContain(
    'sandlarder/v1/+/probes/+/+',
  );
});

describe.each(VERSIONS)('a broker of MQTT %s', (_name, version) => {
  const speaks: Answer = only(version, version === 5 ? undefined : connack(4, 0x01, false));

  test('has its PUBACK when the sink says so', async () => {
    const { broker, service, sink } = await bench(speaks);
    const connection = await subscribed(service, broker, version === 5 ? 1 : 2);
    expect(service.protocolVersion()).toBe(version);
    connection.publish(READINGS, 'one', 1);
    connection.publish(READINGS, 'two', 2);
    connection.publish(READINGS, 'of QoS 0');
    await sink.has(3);
    expect(sink.payloads).toEqual(['one', 'two', 'of QoS 0']);
    expect(sink.taken[0]?.message).toMatchObject({ topic: READINGS, receivedAt: 4321 });
    await service.publish({ topic: ALARM, payload: 'x', qos: 0, retain: true });
    await connection.has(PACKET_TYPE.PUBLISH, 1);
    expect(connection.acknowledged).toEqual([]);
    sink.acknowledgeAll();
    await connection.has(PACKET_TYPE.PUBACK, 2);
    expect(connection.acknowledged).toEqual([1, 2]);
  });

  test('is dialled again when the connection is lost', async () => {
    const { broker, service, connected } = await bench(speaks);
    const first = version === 5 ? 1 : 2;
    (await subscribed(service, broker, first)).socket.destroy();
    await subscribed(service, broker, first + 1);
    expect(connected.slice(-3)).toEqual([true, false, true]);
  });
});

describe('a version that the broker does not speak', () => {
  test.each([
    ["3.1.1's code", connack(4, 0x01, false)],
    ["5's code", connack(5, 0x84, false)],
    ['no answer at all', undefined],
  ])('refused with %s', async (_what, refusal) => {
    const { broker, service, warnings } = await bench(only(4, refusal));
    await subscribed(service, broker, 2);
    expect(service.protocolVersion()).toBe(4);
    expect(warnings).toEqual([]);
  });

  test('a broker that hung up for another reason is tried with both in turn', async () => {
    const { broker, service } = await bench((version, attempt) =>
      attempt < 5 ? undefined : accept(version, attempt),
    );
    await subscribed(service, broker, 5);
    expect(broker.connections.map(({ version }) => version)).toEqual([5, 4, 5, 4, 5]);
  });
});

describe('what a person should look at', () => {
  test('a refused user is tried again and told, without the password', async () => {
    const NOT_AUTHORISED = 0x87;
    const { broker, service, warnings } = await bench(
      (version, attempt) => connack(version, attempt < 3 ? NOT_AUTHORISED : 0, false),
      undefined,
      { user: 'service', password: 'secret' },
    );
    await subscribed(service, broker, 3);
    expect(warnings).toHaveLength(2);
    expect(warnings[0]).toContain('Not authorized');
    expect(warnings.join()).not.toContain('secret');
  });

  test('a session that the broker has lost', async () => {
    const { broker, service, warnings } = await bench(accept, undefined, { expectSession: true });
    await subscribed(service, broker, 1);
    expect(warnings.join()).toContain('the broker has lost the session');
  });

  test('a session lost between two connections', async () => {
    const { broker, service, warnings } = await bench(accept);
    const connection = await subscribed(service, broker, 1);
    expect(warnings).toEqual([]);
    connection.socket.destroy();
    await subscribed(service, broker, 2);
    expect(warnings.join()).toContain('the broker has lost the session');
  });

  test('a session that is still there is no cause', async () => {
    const { broker, service, warnings } = await bench(known, undefined, { expectSession: true });
    await subscribed(service, broker, 1);
    expect(warnings).toEqual([]);
  });

  test('messages that the broker dropped', async () => {
    const { broker, service, sink, warnings } = await bench(accept, new OpenSink());
    const connection = await subscribed(service, broker, 1);
    connection.publish('$SYS/broker/publish/messages/dropped', '2400');
    connection.publish(READINGS, 'one', 1);
    await sink.has(1);
    expect(warnings.join()).toContain('dropped 2400 messages');
    expect(sink.topics).toEqual([READINGS]);
  });
});

test('where there is no room the connection is made anew, so that the broker repeats', async () => {
  const { broker, service, sink } = await bench(known);
  const connection = await subscribed(service, broker, 1);
  sink.hasRoom = false;
  connection.publish(READINGS, 'one', 1);
  const again = await subscribed(service, broker, 2);
  expect(connection.acknowledged).toEqual([]);
  sink.hasRoom = true;
  again.publish(READINGS, 'one', 1);
  await sink.has(1);
  sink.acknowledgeAll();
  await again.has(PACKET_TYPE.PUBACK, 1);
});

test('what is published is told to have failed when the connection is lost, and while there is none', async () => {
  const { broker, service } = await bench(accept);
  const connection = await subscribed(service, broker, 1);
  const lamp = { topic: ALARM, payload: 'x', qos: 1, retain: true } as const;
  // The broker never acknowledges it.
  const sent = service.publish(lamp);
  await connection.has(PACKET_TYPE.PUBLISH, 1);
  connection.socket.destroy();
  await expect(sent).rejects.toMatchObject({ code: 'BROKER_UNAVAILABLE' });
  await expect(service.publish(lamp)).rejects.toMatchObject({ code: 'BROKER_UNAVAILABLE' });
});

test('an address that is none is refused at once', () => {
  const options = { url: 'http://farm-broker', clientId: 'x', sink: new OpenSink() };
  expect(() => connectExternalBroker(options)).toThrow('expected mqtt://host[:port]');
});
