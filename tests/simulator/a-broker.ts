/** A real broker for publishers to publish to, whose manners a test decides. */
import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';
import { Aedes, type PublishPacket } from 'aedes';
import { onTestFinished } from 'vitest';

export interface Arrived {
  readonly topic: string;
  readonly payload: string;
  readonly retain: boolean;
}

/** @param onArrival called before a message is acknowledged; it is never acknowledged where that gives `false` */
export async function openBroker(onArrival: (arrived: Arrived, broker: TestBroker) => boolean = () => true) {
  const aedes = await Aedes.createBroker();
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
    aedes.handle(socket);
  });
  const arrived: Arrived[] = [];
  const broker = {
    url: '',
    arrived,
    cutConnections: () => {
      for (const socket of sockets) socket.destroy();
    },
    /** Nobody can connect any more, and whoever is connected is cut off. */
    die: () => {
      server.close();
      broker.cutConnections();
    },
  };
  aedes.authorizePublish = (client, packet: PublishPacket, done) => {
    const message = {
      topic: packet.topic,
      payload: packet.payload.toString(),
      retain: packet.retain,
    };
    // A will is published without a client.
    arrived.push(message);
    if (client === null || onArrival(message, broker)) done(null);
  };
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  broker.url = `mqtt://127.0.0.1:${(server.address() as AddressInfo).port}`;
  onTestFinished(async () => {
    broker.die();
    await new Promise<void>((resolve) => aedes.close(() => resolve()));
  });
  return broker;
}

export type TestBroker = Pick<Awaited<ReturnType<typeof openBroker>>, 'cutConnections' | 'die'>;
