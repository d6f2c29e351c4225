/** The built-in broker over real sockets, with clients of MQTT 3.1.1 and 5. */
import type { IConnackPacket, MqttClient } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import {
  type BuiltInBroker,
  type BuiltInBrokerOptions,
  startBuiltInBroker,
} from '../../services/intake/built-in-broker.js';
import { fromCredentials } from '../../services/intake/credentials.js';
import { makePacket } from '../../services/intake/mqtt-packets.js';
import {
  ALARM,
  closedBy,
  closeOf,
  connectClient,
  connectForAnswer,
  connectSocket,
  HandSink,
  nextMessage,
  OpenSink,
  READINGS,
  STATUS,
  VERSIONS,
} from './clients.js';

const open: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of open.splice(0).reverse()) await close();
});

async function start(sink: HandSink, options: Partial<BuiltInBrokerOptions> = {}): Promise<BuiltInBroker> {
  const broker = await startBuiltInBroker({ host: '127.0.0.1', port: 0, sink, ...options });
  open.push(() => broker.close());
  return broker;
}

async function client(...args: Parameters<typeof connectClient>): Promise<MqttClient> {
  const connected = await connectClient(...args);
  open.push(() => connected.endAsync(true));
  return connected;
}

async function answerOf(...args: Parameters<typeof connectForAnswer>): Promise<IConnackPacket> {
  const { client, answer } = await connectForAnswer(...args);
  open.push(() => client.endAsync(true));
  return answer;
}

describe.each(VERSIONS)('with MQTT %s', (_name, protocolVersion) => {
  test('QoS 1 is acknowledged when the sink says so, and not before', async () => {
    const sink = new HandSink();
    const { port } = await start(sink, { now: () => 1234 });
    const probe = await client(port, { protocolVersion });
    let acknowledged = false;
    const sent = probe.publishAsync(READINGS, 'pack', { qos: 1 }).then(() => {
      acknowledged = true;
    });
    await sink.has(1);
    // The broker answers other connections meanwhile: this one would have had its answer by then.
    await (await client(port, { protocolVersion })).subscribeAsync('x');
    expect(acknowledged).toBe(false);
    expect(sink.taken[0]?.message).toMatchObject({ topic: READINGS, receivedAt: 1234 });
    expect(sink.payloads).toEqual(['pack']);
    sink.acknowledgeAll();
    await sent;
  });

  test('many messages of one connection wait together', async () => {
    const sink = new HandSink();
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion });
    const sent = Array.from({ length: 50 }, (_, index) =>
      probe.publishAsync(READINGS, `${index}`, { qos: 1 }),
    );
    await sink.has(50);
    sink.acknowledgeAll();
    await Promise.all(sent);
    expect(sink.payloads).toEqual(Array.from({ length: 50 }, (_, index) => `${index}`));
  });

  test('QoS 0 and QoS 2 come in too, each once', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'zero', { qos: 0 });
    await probe.publishAsync(READINGS, 'two', { qos: 2 });
    await sink.has(2);
    expect(sink.payloads).toEqual(['zero', 'two']);
  });

  test('QoS 2 is received when the sink says so', async () => {
    const sink = new HandSink();
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion });
    let received = false;
    probe.on('packetreceive', ({ cmd }) => {
      received ||= cmd === 'pubrec';
    });
    const sent = probe.publishAsync(READINGS, 'two', { qos: 2 });
    await sink.has(1);
    await (await client(port)).subscribeAsync('x');
    expect(received).toBe(false);
    sink.acknowledgeAll();
    await sent;
    expect(received).toBe(true);
  });

  test('a topic that is not ours is taken in, acknowledged, and passed to nobody', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink);
    const watcher = await client(port, { protocolVersion });
    await watcher.subscribeAsync(['#', '$SYS/#', ALARM]);
    const seen: string[] = [];
    watcher.on('message', (topic) => seen.push(topic));
    const stranger = await client(port, { protocolVersion });
    for (const topic of ['weather', '$SYS/broker/heartbeat', ALARM, 'sandlarder/v1/S/probes/p/readings'])
      await stranger.publishAsync(topic, 'x', { qos: 1, retain: true });
    const next = nextMessage(watcher);
    await stranger.publishAsync(READINGS, 'pack', { qos: 1 });
    await next;
    expect(seen.filter((topic) => !topic.startsWith('$SYS/'))).toEqual([READINGS]);
    expect(seen).not.toContain('$SYS/broker/heartbeat');
    expect(sink.topics).toEqual([
      'weather',
      '$SYS/broker/heartbeat',
      ALARM,
      'sandlarder/v1/S/probes/p/readings',
      READINGS,
    ]);
    expect(stranger.connected).toBe(true);
  });

  test('the lamp topic is kept for a lamp that comes later, and cleared', async () => {
    const broker = await start(new OpenSink());
    await broker.publish({ topic: ALARM, payload: '{"kind":"damp"}', qos: 1, retain: true });
    const lamp = await client(broker.port, { protocolVersion });
    const kept = nextMessage(lamp);
    await lamp.subscribeAsync('sandlarder/v1/+/beds/+/alarm', { qos: 1 });
    expect(await kept).toEqual({ topic: ALARM, text: '{"kind":"damp"}', retain: true });
    const cleared = nextMessage(lamp);
    await broker.publish({ topic: ALARM, payload: '', qos: 1, retain: true });
    expect((await cleared).text).toBe('');
  });

  test('status is kept, a reading never', async () => {
    const { port } = await start(new OpenSink());
    const probe = await client(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'pack', { qos: 1, retain: true });
    await probe.publishAsync(STATUS, 'online', { qos: 1, retain: true });
    const later = await client(port, { protocolVersion });
    const first = nextMessage(later);
    await later.subscribeAsync('sandlarder/#');
    expect(await first).toEqual({ topic: STATUS, text: 'online', retain: true });
  });

  test('no session outlives its connection', async () => {
    const broker = await start(new OpenSink());
    const options = { protocolVersion, clean: false, clientId: 'lamp', resubscribe: false };
    const lamp = await client(broker.port, options);
    await lamp.subscribeAsync(ALARM, { qos: 1 });
    await lamp.endAsync();
    await broker.publish({ topic: ALARM, payload: 'missed', qos: 1, retain: false });
    const { client: again, answer } = await connectForAnswer(broker.port, options);
    open.push(() => again.endAsync(true));
    expect(answer.sessionPresent).toBe(false);
    const next = nextMessage(again);
    await again.subscribeAsync(ALARM, { qos: 1 });
    await broker.publish({ topic: ALARM, payload: 'seen', qos: 1, retain: false });
    expect((await next).text).toBe('seen');
  });

  test('the will of a probe that is lost comes in, that of one that leaves does not', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink);
    const will = { topic: STATUS, payload: Buffer.from('offline'), qos: 1, retain: true } as const;
    const leaving = await client(port, { protocolVersion, will });
    await leaving.endAsync();
    const lost = await client(port, { protocolVersion, will });
    lost.stream.destroy();
    await sink.has(1);
    expect(sink.topics).toEqual([STATUS]);
    expect(sink.payloads).toEqual(['offline']);
  });

  test('users and passwords', async () => {
    const authenticate = fromCredentials(new Map([['p01', 'wet sand']]));
    const { port } = await start(new OpenSink(), { authenticate });
    await client(port, { protocolVersion, username: 'p01', password: 'wet sand' });
    // Bad user name or password: 4 [MQTT-3.2.2.3], 0x86 [MQTT5-3.2.2.2].
    const code = protocolVersion === 5 ? 0x86 : 4;
    for (const wrong of [{}, { username: 'p01' }, { username: 'p01', password: 'dry sand' }])
      await expect(client(port, { protocolVersion, ...wrong })).rejects.toMatchObject({ code });
  });

  test('subscribing and unsubscribing are answered', async () => {
    const broker = await start(new OpenSink());
    const watcher = await client(broker.port, { protocolVersion });
    await watcher.subscribeAsync({ 'sandlarder/a': { qos: 1 }, 'sandlarder/b': { qos: 2 } });
    await watcher.unsubscribeAsync(['sandlarder/a', 'sandlarder/b', 'sandlarder/never']);
    expect(broker.clients()).toBe(1);
  });

  test('where there is no room the connection ends unacknowledged', async () => {
    const sink = new OpenSink();
    sink.hasRoom = false;
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion });
    const closed = closeOf(probe);
    const sent = probe.publishAsync(READINGS, 'pack', { qos: 1 }).then(
      () => 'acknowledged',
      () => 'not acknowledged',
    );
    await closed;
    probe.end(true);
    expect(await sent).toBe('not acknowledged');
  });

  test('a sender that left before its message was kept harms nothing', async () => {
    const sink = new HandSink();
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion });
    probe.publishAsync(READINGS, 'pack', { qos: 1 }).catch(() => {});
    await sink.has(1);
    await probe.endAsync(true);
    sink.acknowledgeAll();
    await client(port, { protocolVersion });
  });

  test('a payload above what is stored arrives to be told apart, and the connection lives', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink, { limits: { packet_bytes: 2000 } });
    const probe = await client(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'x'.repeat(1900), { qos: 1 });
    expect(sink.payloads[0]).toHaveLength(1900);
    expect(probe.connected).toBe(true);
  });

  test('a packet that is too long ends its connection and no other', async () => {
    const warnings: string[] = [];
    const { port } = await start(new OpenSink(), {
      limits: { packet_bytes: 2000 },
      onWarning: (warning) => warnings.push(warning),
    });
    const other = await client(port, { protocolVersion });
    // Does not heed what a broker of MQTT 5 says of its longest packet.
    const probe = await connectSocket(port);
    probe.write(connectPacket(protocolVersion));
    probe.write(makePacket(0x30, Buffer.alloc(2000)));
    await closedBy(probe);
    expect(warnings.join()).toContain('MQTT packet: expected at most 2000 bytes, got 2003');
    await other.publishAsync(READINGS, 'pack', { qos: 1 });
  });
});

/** CONNECT of a client named "raw". */
function connectPacket(version: number): Buffer {
  const properties = version === 5 ? [0] : [];
  return makePacket(
    0x10,
    Buffer.from([0, 4, ...Buffer.from('MQTT'), version, 2, 0, 0, ...properties, 0, 3]),
    Buffer.from('raw'),
  );
}

describe('MQTT 5 alone', () => {
  test('the broker says what it does not offer', async () => {
    const { port } = await start(new OpenSink(), { limits: { packet_bytes: 4321, inflight_messages: 77 } });
    const answer = await answerOf(port, {
      protocolVersion: 5,
      clean: false,
      clientId: 'p01',
      properties: { sessionExpiryInterval: 3600 },
    });
    expect(answer.sessionPresent).toBe(false);
    expect(answer.properties).toMatchObject({
      sessionExpiryInterval: 0,
      receiveMaximum: 77,
      maximumPacketSize: 4321,
      subscriptionIdentifiersAvailable: false,
      sharedSubscriptionAvailable: false,
    });
    expect(answer.properties?.topicAliasMaximum).toBeUndefined();
  });

  test('a client without an id gets one', async () => {
    const { port } = await start(new OpenSink());
    const answer = await answerOf(port, { protocolVersion: 5, clientId: '' });
    expect(answer.properties?.assignedClientIdentifier).toMatch(/^assigned-[0-9a-f-]{36}$/);
  });

  test('properties of a message are dropped, and its payload is not touched', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink);
    const probe = await client(port, { protocolVersion: 5 });
    await probe.publishAsync(READINGS, 'pack', {
      qos: 1,
      properties: {
        messageExpiryInterval: 60,
        contentType: 'application/senml+json',
        userProperties: { a: ['b', 'c'] },
      },
    });
    expect(sink.payloads).toEqual(['pack']);
  });

  test('leaving with the wish that the will be sent', async () => {
    const sink = new OpenSink();
    const { port } = await start(sink);
    const will = {
      topic: STATUS,
      payload: Buffer.from('offline'),
      qos: 1,
      retain: true,
      properties: { willDelayInterval: 0, contentType: 'text/plain' },
    } as const;
    const probe = await client(port, { protocolVersion: 5, will });
    await probe.endAsync(false, { reasonCode: 4 });
    await sink.has(1);
    expect(sink.payloads).toEqual(['offline']);
  });
});

describe('what no client may do to the process', () => {
  test.each([
    ['words', Buffer.from('GET / HTTP/1.1\r\n\r\n')],
    ['zeros', Buffer.alloc(100)],
    ['a publish before the connect', makePacket(0x30, Buffer.from([0, 1, 97, 98]))],
    ['a connect of nothing', makePacket(0x10)],
    [
      'a connect of an unknown protocol',
      makePacket(0x10, Buffer.from([0, 4, ...Buffer.from('HTTP'), 4, 2, 0, 0, 0, 0])),
    ],
    [
      'a connect of version 6',
      makePacket(0x10, Buffer.from([0, 4, ...Buffer.from('MQTT'), 6, 2, 0, 0, 0, 0])),
    ],
    ['a length of five bytes', Buffer.from([0x10, 0xff, 0xff, 0xff, 0xff, 0x01])],
    ['two connects', Buffer.concat([connectPacket(4), connectPacket(4)])],
    ['two connects of version 5', Buffer.concat([connectPacket(5), connectPacket(5)])],
    ['QoS 3', Buffer.concat([connectPacket(4), makePacket(0x36, Buffer.from([0, 1, 97, 0, 1]))])],
    [
      'QoS 3 in version 5',
      Buffer.concat([connectPacket(5), makePacket(0x36, Buffer.from([0, 1, 97, 0, 1, 0]))]),
    ],
    ['an empty topic', Buffer.concat([connectPacket(4), makePacket(0x30, Buffer.from([0, 0, 97]))])],
    [
      'a wildcard in a topic',
      Buffer.concat([connectPacket(4), makePacket(0x30, Buffer.from([0, 1, 35, 97]))]),
    ],
    [
      'a topic alias',
      Buffer.concat([connectPacket(5), makePacket(0x30, Buffer.from([0, 0, 3, 0x23, 0, 1]))]),
    ],
    [
      'properties that end too early',
      Buffer.concat([connectPacket(5), makePacket(0x30, Buffer.from([0, 1, 97, 9, 1]))]),
    ],
    ['an authentication exchange', Buffer.concat([connectPacket(5), makePacket(0xf0)])],
  ])('%s', async (_what, bytes) => {
    const { port } = await start(new OpenSink());
    const socket = await connectSocket(port);
    socket.write(bytes);
    await closedBy(socket);
    await (await client(port)).publishAsync(READINGS, 'pack', { qos: 1 });
  });

  test('bytes at random, from a generator with a seed', async () => {
    const { port } = await start(new OpenSink());
    const random = generator(20_260_601);
    for (let round = 0; round < 300; round += 1) {
      const socket = await connectSocket(port);
      const version = random() < 0.5 ? 4 : 5;
      if (random() < 0.8) socket.write(connectPacket(version));
      for (let packet = 0; packet < 3; packet += 1) {
        const body = Buffer.from(
          Array.from({ length: Math.floor(random() * 20) }, () =>
            Math.floor(random() * (random() < 0.5 ? 4 : 256)),
          ),
        );
        socket.write(makePacket(Math.floor(random() * 256), body));
      }
      socket.end();
      await closedBy(socket);
    }
    await (await client(port)).publishAsync(READINGS, 'pack', { qos: 1 });
  });

  test('a connection that says nothing is ended', async () => {
    const { port } = await start(new OpenSink(), { limits: { connect_ms: 50 } });
    await closedBy(await connectSocket(port));
  });

  test('more connections than may be are refused, and room comes back', async () => {
    const warnings: string[] = [];
    const { port } = await start(new OpenSink(), {
      limits: { connections: 1 },
      onWarning: (warning) => warnings.push(warning),
    });
    const first = await client(port);
    await closedBy(await connectSocket(port));
    expect(warnings.join()).toContain('expected at most 1 at once');
    await first.endAsync();
    await expect.poll(() => connectClient(port).then((again) => again.endAsync(true))).toBeUndefined();
  });
});

/** Linear congruential generator (Numerical Recipes' constants [M]): the same bytes in each run. */
function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

test('an address in use is refused with its name', async () => {
  const { port } = await start(new OpenSink());
  await expect(startBuiltInBroker({ host: '127.0.0.1', port, sink: new OpenSink() })).rejects.toMatchObject({
    code: 'LISTEN_REFUSED',
    message: expect.stringContaining(`127.0.0.1:${port}`),
  });
});

test('after closing nothing can be published, and closing again does no harm', async () => {
  const broker = await start(new OpenSink());
  const probe = await client(broker.port);
  const closed = closeOf(probe);
  await broker.close();
  await closed;
  await expect(broker.publish({ topic: ALARM, payload: '', qos: 1, retain: true })).rejects.toMatchObject({
    code: 'BROKER_UNAVAILABLE',
  });
});
