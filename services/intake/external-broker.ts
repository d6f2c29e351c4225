/**
 * The subscription at a broker of the station's own: a session that outlives the connection, so that the broker
 * keeps what comes while the service is away, and acknowledgements that leave only when a message is kept.
 */
import { connect as connectTcp, isIP } from 'node:net';
import { connect as connectTls } from 'node:tls';
import { type IClientOptions, type IConnackPacket, type IPublishPacket, MqttClient } from 'mqtt';
import { SandlarderError } from '../core/errors.js';
import { AckGate } from './ack-gate.js';
import { BackOff } from './back-off.js';
import { type BrokerAddress, parseBrokerUrl } from './broker-url.js';
import { DropWatch } from './drop-watch.js';
import { EXTERNAL_LIMITS, type ExternalLimits } from './limits.js';
import type { Message, Sink } from './ports.js';
import { PROBE_TOPIC_FILTER } from './topic.js';

export interface ExternalBrokerOptions {
  /** `mqtt://host[:port]` or `mqtts://host[:port]`. */
  readonly url: string;
  readonly user?: string;
  readonly password?: string;
  /** PEM of the authority that signed the broker's certificate, where the system does not know it. */
  readonly authority?: string;
  /** The broker keeps the session under this name: always the same for one service. */
  readonly clientId: string;
  /** What stands before the probe topics at this broker, with its last "/"; nothing where absent. */
  readonly prefix?: string;
  /** What it subscribes to, after the prefix; the probe topics where absent. */
  readonly filters?: readonly string[];
  readonly sink: Sink;
  /** The broker should know the session already, since this service was connected before. */
  readonly expectSession?: boolean;
  /** Told in a sentence of what a person should look at. */
  readonly onWarning?: (warning: string) => void;
  readonly onConnected?: (connected: boolean) => void;
  /** Wall clock, ms. */
  readonly now?: () => number;
  readonly random?: () => number;
  readonly limits?: Partial<ExternalLimits>;
}

export interface ExternalBroker {
  connected(): boolean;
  /** 5, or 4 for 3.1.1, as the broker would have it. */
  protocolVersion(): number;
  /** Sends; settles when the broker has it. Rejects with BROKER_UNAVAILABLE where there is no connection, or none any more. */
  publish(message: Message): Promise<void>;
  /** Leaves the broker, which keeps the session. */
  close(): Promise<void>;
}

/**
 * Begins to connect, and goes on trying until closed.
 *
 * @throws SandlarderError WRONG_USAGE where the address is none
 */
export function connectExternalBroker(options: ExternalBrokerOptions): ExternalBroker {
  return new Subscription(options, parseBrokerUrl(options.url));
}

/** Never: a service may be away for weeks [MQTT5-3.1.2.11.2]. */
const SESSION_NEVER_EXPIRES = 0xffff_ffff;

const VERSION_5 = 5;
const VERSION_3_1_1 = 4;

/** CONNACK codes for a version that the broker does not speak: 3.1.1's [MQTT-3.2.2.3] and 5's [MQTT5-3.2.2.2]. */
const WRONG_VERSION: readonly unknown[] = [0x01, 0x84];

/** Settles with the work, or when its time is up. */
function withinTime(work: Promise<unknown>, most_ms: number): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, most_ms);
    void work.finally(() => {
      clearTimeout(timer);
      resolve();
    });
  });
}

/** An address is no server name [RFC 6066 3]. */
const serverName = (host: string): { servername?: string } => (isIP(host) === 0 ? { servername: host } : {});

class Subscription implements ExternalBroker {
  readonly #options: ExternalBrokerOptions;
  readonly #limits: ExternalLimits;
  readonly #backOff: BackOff;
  readonly #client: MqttClient;
  readonly #drops: DropWatch;
  /** Those who wait for the broker to have what they published. */
  readonly #publishing = new Set<(error: Error) => void>();
  #gate: AckGate | undefined;
  #sessionExpected: boolean;
  /** How far the attempt under way has got. */
  #attempt: 'dialling' | 'reached' | 'answered' = 'dialling';
  /** Attempts in a row that reached something which did not answer. */
  #unanswered = 0;

  constructor(options: ExternalBrokerOptions, address: BrokerAddress) {
    this.#options = options;
    this.#limits = { ...EXTERNAL_LIMITS, ...options.limits };
    this.#backOff = new BackOff(
      this.#limits.reconnectFirst_ms,
      this.#limits.reconnectLongest_ms,
      options.random,
    );
    this.#sessionExpected = options.expectSession ?? false;
    this.#drops = new DropWatch(this.#warn);
    this.#client = new MqttClient((client) => this.#dial(address, client), this.#clientOptions());
    this.#client.on('connect', (connack) => this.#onConnect(connack));
    this.#client.on('message', (topic, payload, packet) => this.#onMessage(topic, payload, packet));
    this.#client.on('error', (error) => this.#onError(error));
    this.#client.on('close', () => this.#onClose());
  }

  connected(): boolean {
    return this.#client.connected;
  }

  protocolVersion(): number {
    return this.#client.options.protocolVersion ?? VERSION_5;
  }

  publish({ topic, payload, qos, retain }: Message): Promise<void> {
    if (!this.#client.connected) return Promise.reject(this.#noConnection());
    return new Promise((resolve, reject) => {
      this.#publishing.add(reject);
      this.#client.publish(topic, Buffer.from(payload), { qos, retain }, (error) => {
        this.#publishing.delete(reject);
        if (error) reject(error);
        else resolve();
      });
    });
  }

  async close(): Promise<void> {
    // The client itself waits for its publications without end, and reports nothing that matters by then.
    const ended = this.#client.endAsync(!this.#client.connected).catch(() => undefined);
    await withinTime(ended, this.#limits.close_ms);
    this.#gate?.destroy();
  }

  #noConnection(): SandlarderError {
    return new SandlarderError(
      'BROKER_UNAVAILABLE',
      `expected a connection to ${this.#options.url}, got none`,
    );
  }

  readonly #warn = (warning: string): void => this.#options.onWarning?.(warning);

  #clientOptions(): IClientOptions {
    const { clientId, user, password } = this.#options;
    const { inflight_messages, packet_bytes, keepAlive_s, connect_ms, reconnectFirst_ms } = this.#limits;
    return {
      protocolVersion: VERSION_5,
      clientId,
      clean: false,
      resubscribe: false,
      keepalive: keepAlive_s,
      connectTimeout: connect_ms,
      reconnectPeriod: reconnectFirst_ms,
      reconnectOnConnackError: true,
      ...(user === undefined ? {} : { username: user }),
      ...(password === undefined ? {} : { password }),
      properties: {
        sessionExpiryInterval: SESSION_NEVER_EXPIRES,
        receiveMaximum: inflight_messages,
        maximumPacketSize: packet_bytes,
      },
    };
  }

  #dial({ host, port, tls }: BrokerAddress, client: MqttClient): AckGate {
    this.#attempt = 'dialling';
    // In force when this attempt has failed.
    client.options.reconnectPeriod = this.#backOff.next();
    const { authority } = this.#options;
    const socket = tls
      ? connectTls({ host, port, ...serverName(host), ...(authority === undefined ? {} : { ca: authority }) })
      : connectTcp({ host, port });
    socket.setNoDelay(true);
    socket.once(tls ? 'secureConnect' : 'connect', () => {
      this.#attempt = 'reached';
    });
    const gate = new AckGate(socket, this.#limits.packet_bytes);
    this.#gate = gate;
    return gate;
  }

  #onConnect({ sessionPresent }: IConnackPacket): void {
    this.#attempt = 'answered';
    this.#unanswered = 0;
    this.#backOff.reset();
    if (this.#sessionExpected && !sessionPresent)
      this.#warn(
        'the broker has lost the session: what was published while the service was away may be lost; ' +
          'see that it keeps sessions over a restart (in Mosquitto: persistence true, autosave_on_changes true)',
      );
    this.#sessionExpected = true;
    for (const wanted of this.#options.filters ?? [PROBE_TOPIC_FILTER]) {
      const filter = `${this.#prefix}${wanted}`;
      this.#subscribe(filter, 1, (error) =>
        this.#warn(`the broker refuses the subscription to ${filter}: ${error.message}`),
      );
    }
    this.#subscribe(DropWatch.TOPIC, 0, () => {});
    this.#options.onConnected?.(true);
  }

  get #prefix(): string {
    return this.#options.prefix ?? '';
  }

  #subscribe(filter: string, qos: 0 | 1, onRefused: (error: Error) => void): void {
    this.#client.subscribe(filter, { qos }, (error) => {
      if (error && this.#client.connected) onRefused(error);
    });
  }

  #onMessage(longTopic: string, payload: Buffer, { qos, messageId }: IPublishPacket): void {
    const topic = longTopic.startsWith(this.#prefix) ? longTopic.slice(this.#prefix.length) : longTopic;
    if (topic === DropWatch.TOPIC) {
      this.#drops.look(payload.toString());
      return;
    }
    const gate = this.#gate;
    const acknowledge = () => {
      if (qos > 0 && messageId !== undefined) gate?.release(messageId);
    };
    const receivedAt = (this.#options.now ?? Date.now)();
    if (this.#options.sink.accept({ topic, payload, receivedAt }, acknowledge)) return;
    // The broker repeats what was not acknowledged when the connection is made again, and only then.
    gate?.destroy(new SandlarderError('STORE_UNAVAILABLE', 'expected room for another message, got none'));
  }

  #onError(error: Error): void {
    const code = 'code' in error ? error.code : undefined;
    // A number comes from a CONNACK, a text from the network.
    if (typeof code === 'number') this.#attempt = 'answered';
    if (WRONG_VERSION.includes(code) && this.protocolVersion() === VERSION_5)
      this.#client.options.protocolVersion = VERSION_3_1_1;
    else this.#warn(`broker ${this.#options.url}: ${error.message}`);
  }

  #noteUnanswered(): void {
    this.#unanswered += 1;
    this.#client.options.protocolVersion = this.protocolVersion() === VERSION_5 ? VERSION_3_1_1 : VERSION_5;
    if (this.#unanswered > 1)
      this.#warn(`broker ${this.#options.url}: what listens there does not answer as an MQTT broker does`);
  }

  #onClose(): void {
    // Some brokers hang up on a version that they do not know: then the other is tried in turn.
    if (this.#attempt === 'reached') this.#noteUnanswered();
    this.#attempt = 'dialling';
    for (const reject of this.#publishing) reject(this.#noConnection());
    this.#publishing.clear();
    this.#options.onConnected?.(false);
  }
}
