/** The gate with the client library that it was written for: look here first before another version is taken. */
import { connect } from 'node:net';
import { MqttClient } from 'mqtt';
import { describe, expect, test } from 'vitest';
import { AckGate } from '../../services/intake/ack-gate.js';
import { PACKET_TYPE } from '../../services/intake/mqtt-packets.js';
import { READINGS, VERSIONS } from './clients.js';
import { closeAfterwards } from './opened.js';
import { connack, ScriptedBroker } from './scripted-broker.js';

async function bench(protocolVersion: 4 | 5) {
  const broker = await ScriptedBroker.start((version) => connack(version, 0, false));
  closeAfterwards(() => broker.close());
  const gates: AckGate[] = [];
  const dial = () => {
    const gate = new AckGate(connect({ port: broker.port, host: '127.0.0.1' }), 10_000);
    gates.push(gate);
    return gate;
  };
  const client = new MqttClient(dial, {
    protocolVersion,
    clean: false,
    clientId: 'gate',
    reconnectPeriod: 1,
  });
  client.on('error', () => {});
  closeAfterwards(() => client.endAsync(true));
  const messages = new Messages(client);
  return { broker, client, gates, messages, connection: await broker.connection(1) };
}

/** What the library has handed on. */
class Messages {
  readonly texts: string[] = [];
  #waiting: { count: number; done: () => void }[] = [];

  constructor(client: MqttClient) {
    client.on('message', (_topic, payload) => {
      this.texts.push(payload.toString());
      for (const { count, done } of this.#waiting) if (this.texts.length >= count) done();
    });
  }

  has(count: number): Promise<void> {
    return new Promise((done) => {
      if (this.texts.length >= count) done();
      else this.#waiting.push({ count, done });
    });
  }
}

test('the version of the library that this was tried with', () => {
  expect(MqttClient.VERSION).toBe('5.16.0');
});

describe.each(VERSIONS)('MQTT %s', (_name, version) => {
  test('the library reads on while acknowledgements are held, and they leave as they are released', async () => {
    const { client, gates, messages, connection } = await bench(version);
    await connection.has(PACKET_TYPE.CONNECT, 1);
    for (const id of [1, 2, 3, 600]) connection.publish(READINGS, `m${id}`, id);
    await messages.has(4);
    // What is written after the PUBACKs arrives, and they do not.
    await client.subscribeAsync('x', { qos: 1 });
    expect(connection.acknowledged).toEqual([]);
    expect(gates[0]?.held).toBe(4);
    gates[0]?.release(2);
    await connection.has(PACKET_TYPE.PUBACK, 1);
    for (const id of [600, 1, 3]) gates[0]?.release(id);
    await connection.has(PACKET_TYPE.PUBACK, 4);
    expect(connection.acknowledged).toEqual([2, 600, 1, 3]);
    expect(gates[0]?.held).toBe(0);
  });

  test('released while the message is being handed on, before the PUBACK is written', async () => {
    const { client, gates, connection } = await bench(version);
    client.on('message', (_topic, _payload, { messageId }) => gates[0]?.release(messageId ?? 0));
    await connection.has(PACKET_TYPE.CONNECT, 1);
    for (const id of [7, 8, 7]) connection.publish(READINGS, 'm', id);
    await connection.has(PACKET_TYPE.PUBACK, 3);
    expect(connection.acknowledged).toEqual([7, 8, 7]);
    expect(gates[0]?.held).toBe(0);
  });

  test('a release after the connection has ended acknowledges nothing on the next', async () => {
    const { broker, client, gates, messages, connection } = await bench(version);
    await connection.has(PACKET_TYPE.CONNECT, 1);
    connection.publish(READINGS, 'before', 1);
    await messages.has(1);
    connection.socket.destroy();
    const next = await broker.connection(2);
    await next.has(PACKET_TYPE.CONNECT, 1);
    next.publish(READINGS, 'again', 1);
    await messages.has(2);
    gates[0]?.release(1);
    await client.subscribeAsync('x', { qos: 1 });
    expect(next.acknowledged).toEqual([]);
    gates[1]?.release(1);
    await next.has(PACKET_TYPE.PUBACK, 1);
  });

  test('publishing, and its acknowledgement by the broker, is not held', async () => {
    const { client, connection } = await bench(version);
    await connection.has(PACKET_TYPE.CONNECT, 1);
    client.publish('lamp', 'on', { qos: 1 });
    await connection.has(PACKET_TYPE.PUBLISH, 1);
  });

  test('a packet that is too long ends the connection', async () => {
    const { broker, connection } = await bench(version);
    await connection.has(PACKET_TYPE.CONNECT, 1);
    connection.publish(READINGS, 'x'.repeat(10_000), 1);
    await broker.connection(2);
  });
});
