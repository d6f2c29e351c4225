/**
 * The broker in the process: takes readings straight from its publish hook, and holds each sender's
 * acknowledgement until the reading is kept.
 *
 * Only probe topics go further than that hook: they are passed on to whoever subscribed. Anything else is
 * acknowledged, counted by the reader as an unknown topic, and goes no further, so that a stray or hostile sender
 * fills no memory and speaks for no lamp. Nothing is kept over a connection's end but retained status.
 */
import { createServer, type Server, type Socket } from 'node:net';
import { createServer as createTlsServer, type Server as TlsServer } from 'node:tls';
import { Aedes, type AedesOptions, type Client, type PublishPacket } from 'aedes';
import { SandlarderError } from '../core/errors.js';
import { ClientConnection } from './client-connection.js';
import type { Authenticate, Speaker } from './credentials.js';
import { Door, isRefusal, type OnRefused } from './door.js';
import { BROKER_LIMITS, type BrokerLimits } from './limits.js';
import type { Incoming, Message, Sink } from './ports.js';
import { RetainedTopics } from './retained-topics.js';
import { parseTopic } from './topic.js';

export interface BuiltInBrokerOptions {
  readonly host: string;
  /** 0 for any that is free. */
  readonly port: number;
  readonly sink: Sink;
  /** Where it also listens, by TLS. */
  readonly tls?: TlsListening | undefined;
  /** Without it everyone may connect, and say and hear all. */
  readonly authenticate?: Authenticate;
  /** Told of every connection, publish and subscription that was refused for who it is of. */
  readonly onRefused?: OnRefused;
  /**
   * Told in a sentence of what a person should look at: broken connections, and those for which there is no room.
   *
   * @param about of what kind it is, one of a few: what clients send is not in it
   */
  readonly onWarning?: (warning: string, about: string) => void;
  /** Wall clock, ms. */
  readonly now?: () => number;
  readonly limits?: Partial<BrokerLimits>;
}

export interface TlsListening {
  readonly host: string;
  readonly port: number;
  /** PEM. */
  readonly cert: string;
  readonly key: string;
}

export interface BuiltInBroker {
  /** The port that it listens on by TLS; undefined where it does not. */
  readonly tlsPort: number | undefined;
  /** Takes another certificate: connections that are open go on with theirs. */
  renew(pair: { readonly cert: string; readonly key: string }): void;
  /** The port that it listens on. */
  readonly port: number;
  /** Open connections. */
  clients(): number;
  /** Ends the connections of those who may be there no more. Their wills are sent. */
  endWhere(isOver: (speaker: Speaker) => boolean): void;
  /** Sends to whoever subscribed. Rejects with BROKER_UNAVAILABLE where the broker is closed. */
  publish(message: Message): Promise<void>;
  /** Ends every connection. Messages not acknowledged by then are the sender's to repeat. */
  close(): Promise<void>;
}

/**
 * Starts the broker.
 *
 * @throws SandlarderError LISTEN_REFUSED where the address cannot be listened on
 */
export async function startBuiltInBroker(options: BuiltInBrokerOptions): Promise<BuiltInBroker> {
  const limits = { ...BROKER_LIMITS, ...options.limits };
  const warn = options.onWarning ?? (() => {});
  const door = new Door(options.authenticate, options.onRefused);
  const aedes = await Aedes.createBroker(brokerOptions(options, limits, door));
  warnOfErrors(aedes, warn);
  const sockets = new Set<Socket>();
  const serveSocket = (socket: Socket): void => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
    socket.setNoDelay(true);
    socket.setKeepAlive(true, limits.tcpKeepAlive_ms);
    aedes.handle(new ClientConnection(socket, limits));
  };
  const server = createServer(serveSocket);
  const tls = options.tls && createTlsServer({ cert: options.tls.cert, key: options.tls.key }, serveSocket);
  tls?.on('tlsClientError', (error) => warn(`connection by TLS refused: ${error.message}`, 'mqtt tls'));
  const servers = [server, ...(tls ? [tls] : [])];
  for (const one of servers) {
    one.maxConnections = limits.connections;
    one.on('drop', () =>
      warn(`connection refused: expected at most ${limits.connections} at once`, 'mqtt room'),
    );
  }
  try {
    await listen(server, options.host, options.port);
    if (tls && options.tls) await listen(tls, options.tls.host, options.tls.port);
  } catch (error) {
    await close(servers, aedes, sockets);
    throw error;
  }
  for (const one of servers) one.on('error', (error) => warn(`broker: ${error.message}`, 'mqtt broker'));
  return {
    port: portOf(server),
    tlsPort: tls && portOf(tls),
    renew: (pair) => (tls as TlsServer | undefined)?.setSecureContext(pair),
    clients: () => sockets.size,
    endWhere: (isOver) => {
      for (const client of clientsOf(aedes)) if (isOver(door.speakerOf(client))) client.close();
    },
    publish: (message) => publish(aedes, message),
    close: () => close(servers, aedes, sockets),
  };
}

type Warn = NonNullable<BuiltInBrokerOptions['onWarning']>;

function warnOfErrors(aedes: Aedes, warn: Warn): void {
  // A broker without a listener for 'error' takes the process down with it.
  aedes.on('error' as 'closed', (...problem: unknown[]) =>
    warn(`broker: ${String(problem[0])}`, 'mqtt broker'),
  );
  aedes.on('connectionError', (_client, error) =>
    warn(`connection refused or broken: ${error.message}`, 'mqtt connection'),
  );
  aedes.on('clientError', (client, error) => {
    if (!isRefusal(error)) warn(`connection of ${client.id} ended: ${error.message}`, 'mqtt client');
  });
}

/** By their ids; its types do not have them. */
const clientsOf = (aedes: Aedes): Client[] =>
  Object.values((aedes as unknown as { readonly clients: Readonly<Record<string, Client>> }).clients);

const brokerOptions = (options: BuiltInBrokerOptions, limits: BrokerLimits, door: Door): AedesOptions => ({
  connectTimeout: limits.connect_ms,
  drainTimeout: limits.drain_ms,
  maxInflightInbound: limits.inflight_messages,
  preConnect: (client, packet, done) => {
    door.knock(client, packet);
    done(null, true);
  },
  authenticate: (client, user, password, done) => door.enter(client, user, password, done),
  authorizePublish: takeIn(options, limits, door),
  authorizeSubscribe: (client, subscription, done) => door.subscribe(client, subscription, done),
});

type TakeIn = (client: Client | null, packet: PublishPacket, done: (error?: Error | null) => void) => void;

/**
 * The publish hook. The acknowledgement, and the reading of what the same connection sent next, wait for `done`:
 * so a sender of QoS 0 is slowed down too, rather than filling the memory.
 */
function takeIn({ sink, now = Date.now }: BuiltInBrokerOptions, limits: BrokerLimits, door: Door): TakeIn {
  const retained = new RetainedTopics(limits.retained_topics);
  return (client, packet, done) => {
    const problem = door.publishProblem(client, packet.topic);
    if (problem !== undefined) return done(problem);
    const incoming = toIncoming(packet, now());
    const topic = parseTopic(packet.topic);
    packet.retain &&= topic?.kind === 'status' && retained.admit(packet.topic, incoming.payload.length);
    if (topic === undefined) leadAstray(packet);
    // An error ends the connection unacknowledged, and a sender of QoS 1 then repeats the message.
    if (!sink.accept(incoming, () => done(null))) done(noRoom());
  };
}

const noRoom = (): SandlarderError =>
  new SandlarderError(
    'STORE_UNAVAILABLE',
    'expected room for another message, got none: the store is behind',
  );

function toIncoming({ topic, payload }: PublishPacket, receivedAt: number): Incoming {
  return { topic, payload: typeof payload === 'string' ? Buffer.from(payload) : payload, receivedAt };
}

/** Nobody can subscribe to what begins with `$` but those who name it, and what is sent there holds nothing. */
function leadAstray(packet: PublishPacket): void {
  packet.topic = '$unknown';
  packet.payload = Buffer.alloc(0);
}

function listen(server: Server, host: string, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const refuse = (error: Error) => {
      const message = `MQTT: expected to listen on ${host}:${port}, got ${error.message}`;
      reject(new SandlarderError('LISTEN_REFUSED', message, { cause: error }));
    };
    server.once('error', refuse);
    server.listen(port, host, () => {
      server.removeListener('error', refuse);
      resolve();
    });
  });
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

function publish(aedes: Aedes, { topic, payload, qos, retain }: Message): Promise<void> {
  if (aedes.closed)
    return Promise.reject(
      new SandlarderError('BROKER_UNAVAILABLE', 'expected an open broker, got a closed one'),
    );
  const packet = { cmd: 'publish', topic, payload: Buffer.from(payload), qos, retain, dup: false } as const;
  return new Promise((resolve, reject) => {
    aedes.publish(packet, (error) => (error ? reject(error) : resolve()));
  });
}

async function close(servers: readonly Server[], aedes: Aedes, sockets: ReadonlySet<Socket>): Promise<void> {
  const closed = Promise.all(servers.map((server) => new Promise((resolve) => server.close(resolve))));
  await closeAedes(aedes);
  for (const socket of sockets) socket.destroy();
  await closed;
}

const closeAedes = (aedes: Aedes): Promise<void> => new Promise((resolve) => aedes.close(() => resolve()));
