/** What the broker tests share: clients of both versions, raw sockets, and a sink that a test opens by hand. */
import { once } from 'node:events';
import { connect as connectTcp, type Socket } from 'node:net';
import { connect, type IClientOptions, type IConnackPacket, type MqttClient } from 'mqtt';
import type { Acknowledge, Incoming, Sink } from '../../services/intake/ports.js';

export const READINGS = 'sandlarder/v1/ridge-station/probes/p01/readings';
export const STATUS = 'sandlarder/v1/ridge-station/probes/p01/status';
export const ALARM = 'sandlarder/v1/ridge-station/beds/pit-a/alarm';

export const VERSIONS = [
  ['3.1.1', 4],
  ['5', 5],
] as const;

/** Keeps what it is given until the test acknowledges it. */
export class HandSink implements Sink {
  readonly taken: { message: Incoming; acknowledge: Acknowledge }[] = [];
  hasRoom = true;
  #waiting: { count: number; done: () => void }[] = [];

  accept(message: Incoming, acknowledge: Acknowledge): boolean {
    if (!this.hasRoom) return false;
    this.taken.push({ message, acknowledge });
    for (const { count, done } of this.#waiting) if (this.taken.length >= count) done();
    return true;
  }

  /** Settles when so many messages have come in all. */
  has(count: number): Promise<void> {
    return new Promise((done) => {
      if (this.taken.length >= count) done();
      else this.#waiting.push({ count, done });
    });
  }

  acknowledgeAll(): void {
    for (const { acknowledge } of this.taken) acknowledge();
  }

  get topics(): string[] {
    return this.taken.map(({ message }) => message.topic);
  }

  get payloads(): string[] {
    return this.taken.map(({ message }) => Buffer.from(message.payload).toString());
  }
}

/** Acknowledges at once. */
export class OpenSink extends HandSink {
  override accept(message: Incoming, acknowledge: Acknowledge): boolean {
    const accepted = super.accept(message, acknowledge);
    if (accepted) acknowledge();
    return accepted;
  }
}

/** A client that does not come back by itself, with the broker's answer to its CONNECT. */
export async function connectForAnswer(
  port: number,
  options: IClientOptions = {},
): Promise<{ client: MqttClient; answer: IConnackPacket }> {
  const client = connect(`mqtt://127.0.0.1:${port}`, { reconnectPeriod: 0, ...options });
  client.on('error', () => {});
  const answer = await new Promise<IConnackPacket>((resolve, reject) => {
    client.once('connect', resolve);
    client.once('error', reject);
    client.once('close', () => reject(new Error('closed before it was connected')));
  });
  return { client, answer };
}

export async function connectClient(port: number, options: IClientOptions = {}): Promise<MqttClient> {
  return (await connectForAnswer(port, options)).client;
}

/** The next message that the client is given. */
export function nextMessage(client: MqttClient): Promise<{ topic: string; text: string; retain: boolean }> {
  return new Promise((resolve) => {
    client.once('message', (topic, payload, { retain }) =>
      resolve({ topic, text: payload.toString(), retain }),
    );
  });
}

/** Settles when the client's connection has ended. */
export function closeOf(client: MqttClient): Promise<void> {
  return new Promise((resolve) => client.once('close', () => resolve()));
}

/** A socket to which a test writes bytes of its own. */
export async function connectSocket(port: number): Promise<Socket> {
  const socket = connectTcp({ port, host: '127.0.0.1' });
  socket.on('error', () => {});
  await once(socket, 'connect');
  return socket;
}

/** Settles when the other end has closed. */
export async function closedBy(socket: Socket): Promise<void> {
  socket.resume();
  if (!socket.closed) await once(socket, 'close');
}
