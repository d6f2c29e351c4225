/** What no client may do to the built-in broker: garbage, floods, silence. */
import { describe, expect, test } from 'vitest';
import { makePacket } from '../../services/intake/mqtt-packets.js';
import { closedBy, connectClient, connectSocket, OpenSink, READINGS, VERSIONS } from './clients.js';
import { openClient, startBroker } from './opened.js';

/** CONNECT of a client named "raw". */
function connectPacket(version: number): Buffer {
  const properties = version === 5 ? [0] : [];
  return makePacket(
    0x10,
    Buffer.from([0, 4, ...Buffer.from('MQTT'), version, 2, 0, 0, ...properties, 0, 3]),
    Buffer.from('raw'),
  );
}

describe.each(VERSIONS)('with MQTT %s', (_name, protocolVersion) => {
  test('a packet that is too long ends its connection and no other', async () => {
    const warnings: string[] = [];
    const { port } = await startBroker(new OpenSink(), {
      limits: { packet_bytes: 2000 },
      onWarning: (warning) => warnings.push(warning),
    });
    const other = await openClient(port, { protocolVersion });
    // Does not heed what a broker of MQTT 5 says of its longest packet.
    const probe = await connectSocket(port);
    probe.write(connectPacket(protocolVersion));
    probe.write(makePacket(0x30, Buffer.alloc(2000)));
    await closedBy(probe);
    expect(warnings.join()).toContain('MQTT packet: expected at most 2000 bytes, got 2003');
    await other.publishAsync(READINGS, 'pack', { qos: 1 });
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
    const { port } = await startBroker(new OpenSink());
    const socket = await connectSocket(port);
    socket.write(bytes);
    await closedBy(socket);
    await (await openClient(port)).publishAsync(READINGS, 'pack', { qos: 1 });
  });

  test('bytes at random, from a generator with a seed', async () => {
    const { port } = await startBroker(new OpenSink());
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
    await (await openClient(port)).publishAsync(READINGS, 'pack', { qos: 1 });
  });

  test('a connection that says nothing is ended', async () => {
    const { port } = await startBroker(new OpenSink(), { limits: { connect_ms: 50 } });
    await closedBy(await connectSocket(port));
  });

  test('more connections than may be are refused, and room comes back', async () => {
    const warnings: string[] = [];
    const { port } = await startBroker(new OpenSink(), {
      limits: { connections: 1 },
      onWarning: (warning) => warnings.push(warning),
    });
    const first = await openClient(port);
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
