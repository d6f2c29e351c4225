/** The built-in broker over real sockets, with clients of MQTT 3.1.1 and 5. */
import { describe, expect, test } from 'vitest';
import { startBuiltInBroker } from '../../services/intake/built-in-broker.js';
import { fromCredentials } from '../../services/intake/credentials.js';
import { ALARM, closeOf, HandSink, nextMessage, OpenSink, READINGS, STATUS, VERSIONS } from './clients.js';
import { openClient, openForAnswer, startBroker } from './opened.js';

describe.each(VERSIONS)('with MQTT %s', (_name, protocolVersion) => {
  test('QoS 1 is acknowledged when the sink says so, and not before', async () => {
    const sink = new HandSink();
    const { port } = await startBroker(sink, { now: () => 1234 });
    const probe = await openClient(port, { protocolVersion });
    let acknowledged = false;
    const sent = probe.publishAsync(READINGS, 'pack', { qos: 1 }).then(() => {
      acknowledged = true;
    });
    await sink.has(1);
    // The broker answers other connections meanwhile: this one would have had its answer by then.
    await (await openClient(port, { protocolVersion })).subscribeAsync('x');
    expect(acknowledged).toBe(false);
    expect(sink.taken[0]?.message).toMatchObject({ topic: READINGS, receivedAt: 1234 });
    expect(sink.payloads).toEqual(['pack']);
    sink.acknowledgeAll();
    await sent;
  });

  test('many messages of one connection wait together', async () => {
    const sink = new HandSink();
    const { port } = await startBroker(sink);
    const probe = await openClient(port, { protocolVersion });
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
    const { port } = await startBroker(sink);
    const probe = await openClient(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'zero', { qos: 0 });
    await probe.publishAsync(READINGS, 'two', { qos: 2 });
    await sink.has(2);
    expect(sink.payloads).toEqual(['zero', 'two']);
  });

  test('QoS 2 is received when the sink says so', async () => {
    const sink = new HandSink();
    const { port } = await startBroker(sink);
    const probe = await openClient(port, { protocolVersion });
    let received = false;
    probe.on('packetreceive', ({ cmd }) => {
      received ||= cmd === 'pubrec';
    });
    const sent = probe.publishAsync(READINGS, 'two', { qos: 2 });
    await sink.has(1);
    await (await openClient(port)).subscribeAsync('x');
    expect(received).toBe(false);
    sink.acknowledgeAll();
    await sent;
    expect(received).toBe(true);
  });

  test('a topic that is not ours is taken in, acknowledged, and passed to nobody', async () => {
    const sink = new OpenSink();
    const { port } = await startBroker(sink);
    const watcher = await openClient(port, { protocolVersion });
    await watcher.subscribeAsync(['#', '$SYS/#', ALARM]);
    const seen: string[] = [];
    watcher.on('message', (topic) => seen.push(topic));
    const stranger = await openClient(port, { protocolVersion });
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
    const broker = await startBroker(new OpenSink());
    await broker.publish({ topic: ALARM, payload: '{"kind":"damp"}', qos: 1, retain: true });
    const lamp = await openClient(broker.port, { protocolVersion });
    const kept = nextMessage(lamp);
    await lamp.subscribeAsync('sandlarder/v1/+/beds/+/alarm', { qos: 1 });
    expect(await kept).toEqual({ topic: ALARM, text: '{"kind":"damp"}', retain: true });
    const cleared = nextMessage(lamp);
    await broker.publish({ topic: ALARM, payload: '', qos: 1, retain: true });
    expect((await cleared).text).toBe('');
  });

  test('status is kept, a reading never', async () => {
    const { port } = await startBroker(new OpenSink());
    const probe = await openClient(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'pack', { qos: 1, retain: true });
    await probe.publishAsync(STATUS, 'online', { qos: 1, retain: true });
    const later = await openClient(port, { protocolVersion });
    const first = nextMessage(later);
    await later.subscribeAsync('sandlarder/#');
    expect(await first).toEqual({ topic: STATUS, text: 'online', retain: true });
  });

  test('no session outlives its connection', async () => {
    const broker = await startBroker(new OpenSink());
    const options = { protocolVersion, clean: false, clientId: 'lamp', resubscribe: false };
    const lamp = await openClient(broker.port, options);
    await lamp.subscribeAsync(ALARM, { qos: 1 });
    await lamp.endAsync();
    await broker.publish({ topic: ALARM, payload: 'missed', qos: 1, retain: false });
    const { client: again, answer } = await openForAnswer(broker.port, options);
    expect(answer.sessionPresent).toBe(false);
    const next = nextMessage(again);
    await again.subscribeAsync(ALARM, { qos: 1 });
    await broker.publish({ topic: ALARM, payload: 'seen', qos: 1, retain: false });
    expect((await next).text).toBe('seen');
  });

  test('the will of a probe that is lost comes in, that of one that leaves does not', async () => {
    const sink = new OpenSink();
    const { port } = await startBroker(sink);
    const will = { topic: STATUS, payload: Buffer.from('offline'), qos: 1, retain: true } as const;
    const leaving = await openClient(port, { protocolVersion, will });
    await leaving.endAsync();
    const lost = await openClient(port, { protocolVersion, will });
    lost.stream.destroy();
    await sink.has(1);
    expect(sink.topics).toEqual([STATUS]);
    expect(sink.payloads).toEqual(['offline']);
  });

  test('users and passwords', async () => {
    const authenticate = fromCredentials(new Map([['p01', 'wet sand']]));
    const { port } = await startBroker(new OpenSink(), { authenticate });
    await openClient(port, { protocolVersion, username: 'p01', password: 'wet sand' });
    // Bad user name or password: 4 [MQTT-3.2.2.3], 0x86 [MQTT5-3.2.2.2].
    const code = protocolVersion === 5 ? 0x86 : 4;
    for (const wrong of [{}, { username: 'p01' }, { username: 'p01', password: 'dry sand' }])
      await expect(openClient(port, { protocolVersion, ...wrong })).rejects.toMatchObject({ code });
  });

  test('subscribing and unsubscribing are answered', async () => {
    const broker = await startBroker(new OpenSink());
    const watcher = await openClient(broker.port, { protocolVersion });
    await watcher.subscribeAsync({ 'sandlarder/a': { qos: 1 }, 'sandlarder/b': { qos: 2 } });
    await watcher.unsubscribeAsync(['sandlarder/a', 'sandlarder/b', 'sandlarder/never']);
    expect(broker.clients()).toBe(1);
  });

  test('where there is no room the connection ends unacknowledged', async () => {
    const sink = new OpenSink();
    sink.hasRoom = false;
    const { port } = await startBroker(sink);
    const probe = await openClient(port, { protocolVersion });
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
    const { port } = await startBroker(sink);
    const probe = await openClient(port, { protocolVersion });
    probe.publishAsync(READINGS, 'pack', { qos: 1 }).catch(() => {});
    await sink.has(1);
    await probe.endAsync(true);
    sink.acknowledgeAll();
    await openClient(port, { protocolVersion });
  });

  test('a payload above what is stored arrives to be told apart, and the connection lives', async () => {
    const sink = new OpenSink();
    const { port } = await startBroker(sink, { limits: { packet_bytes: 2000 } });
    const probe = await openClient(port, { protocolVersion });
    await probe.publishAsync(READINGS, 'x'.repeat(1900), { qos: 1 });
    expect(sink.payloads[0]).toHaveLength(1900);
    expect(probe.connected).toBe(true);
  });
});

test('an address in use is refused with its name', async () => {
  const { port } = await startBroker(new OpenSink());
  await expect(startBuiltInBroker({ host: '127.0.0.1', port, sink: new OpenSink() })).rejects.toMatchObject({
    code: 'LISTEN_REFUSED',
    message: expect.stringContaining(`127.0.0.1:${port}`),
  });
});

test('after closing nothing can be published, and closing again does no harm', async () => {
  const broker = await startBroker(new OpenSink());
  const probe = await openClient(broker.port);
  const closed = closeOf(probe);
  await broker.close();
  await closed;
  await expect(broker.publish({ topic: ALARM, payload: '', qos: 1, retain: true })).rejects.toMatchObject({
    code: 'BROKER_UNAVAILABLE',
  });
});
