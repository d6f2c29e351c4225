/** A broker that does only what a test tells it to, and remembers what it was sent. */
import { once } from 'node:events';
import { createServer, type Server, type Socket } from 'node:net';
import {
  makePacket,
  PACKET_TYPE,
  type Packet,
  PacketAligner,
  packetsOf,
} from '../../services/intake/mqtt-packets.js';

const MQTT_NAME_AND_LENGTH = 6;

/** What the broker does with a CONNECT: its CONNACK, or undefined to hang up. */
export type Answer = (version: number, attempt: number) => Buffer | undefined;

/** CONNACK in the form of the version. */
export function connack(version: number, reason: number, sessionPresent: boolean): Buffer {
  const flags = sessionPresent ? 1 : 0;
  return makePacket(0x20, Uint8Array.from(version === 5 ? [flags, reason, 0] : [flags, reason]));
}

export class ScriptedConnection {
  version = 0;
  readonly received: Packet[] = [];
  readonly socket: Socket;
  #waiting: { type: number; count: number; done: () => void }[] = [];

  constructor(socket: Socket) {
    this.socket = socket;
  }

  take(packet: Packet): void {
    this.received.push(packet);
    for (const { type, count, done } of this.#waiting) if (this.of(type).length >= count) done();
  }

  of(type: number): Packet[] {
    return this.received.filter((packet) => packet.type === type);
  }

  /** Settles when so many packets of the type have come in all. */
  has(type: number, count: number): Promise<void> {
    return new Promise((done) => {
      if (this.of(type).length >= count) done();
      else this.#waiting.push({ type, count, done });
    });
  }

  /** Ids of the PUBACKs so far, in order. */
  get acknowledged(): number[] {
    return this.of(PACKET_TYPE.PUBACK).map(({ body }) => body.readUInt16BE(0));
  }

  publish(topic: string, payload: string, id?: number): void {
    const head = Buffer.from(`\0\0${topic}`);
    head.writeUInt16BE(head.length - 2);
    const idBytes = id === undefined ? [] : [id >> 8, id & 0xff];
    const properties = this.version === 5 ? [0] : [];
    const firstByte = id === undefined ? 0x30 : 0x32;
    this.socket.write(
      makePacket(firstByte, head, Uint8Array.from([...idBytes, ...properties]), Buffer.from(payload)),
    );
  }
}

export class ScriptedBroker {
  readonly connections: ScriptedConnection[] = [];
  readonly port: number;
  readonly #server: Server;
  readonly #answer: Answer;
  #waiting: { count: number; done: () => void }[] = [];

  static async start(answer: Answer): Promise<ScriptedBroker> {
    const server = createServer();
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    return new ScriptedBroker(server, answer);
  }

  private constructor(server: Server, answer: Answer) {
    this.#server = server;
    this.#answer = answer;
    const address = server.address();
    this.port = typeof address === 'object' && address !== null ? address.port : 0;
    server.on('connection', (socket) => this.#onConnection(socket));
  }

  /** The so-manieth connection, from 1, once it is made. */
  async connection(count: number): Promise<ScriptedConnection> {
    if (this.connections.length < count)
      await new Promise<void>((done) => this.#waiting.push({ count, done }));
    const connection = this.connections[count - 1];
    if (connection === undefined) throw new Error(`expected connection ${count}`);
    return connection;
  }

  async close(): Promise<void> {
    this.#server.close();
    for (const { socket } of this.connections) socket.destroy();
    await once(this.#server, 'close');
  }

  #onConnection(socket: Socket): void {
    const connection = new ScriptedConnection(socket);
    const aligner = new PacketAligner(100_000);
    socket.on('error', () => {});
    socket.on('data', (chunk: Buffer) => {
      for (const packet of packetsOf(aligner.align(chunk) ?? Buffer.alloc(0)))
        this.#onPacket(connection, packet);
    });
    this.connections.push(connection);
    for (const { count, done } of this.#waiting) if (this.connections.length >= count) done();
  }

  #onPacket(connection: ScriptedConnection, packet: Packet): void {
    const { socket } = connection;
    if (packet.type === PACKET_TYPE.CONNECT) {
      connection.version = packet.body.readUInt8(MQTT_NAME_AND_LENGTH);
      const answer = this.#answer(connection.version, this.connections.length);
      if (answer === undefined) socket.destroy();
      else socket.write(answer);
    }
    if (packet.type === PACKET_TYPE.SUBSCRIBE) {
      const properties = connection.version === 5 ? [0] : [];
      socket.write(makePacket(0x90, packet.body.subarray(0, 2), Uint8Array.from([...properties, 1])));
    }
    connection.take(packet);
  }
}
