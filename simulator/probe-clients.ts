/** A connection for each simulated probe, with its own will, as real probes have. */
import { setTimeout as wait } from 'node:timers/promises';
import mqtt, { type MqttClient } from 'mqtt';
import { SandlarderError } from '../services/core/errors.js';
import { statusTopic } from './pack.js';

export interface ClientOptions {
  readonly brokerUrl: string;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  readonly site: string;
}

/** Until the first connection must stand, ms. */
const CONNECT_ms = 10_000;

/** Between attempts to send what was not taken, ms. */
const RETRY_ms = 200;

/** For the last word of every probe to be acknowledged, ms: then the connections are cut, and their wills say it. */
const FAREWELL_ms = 2_000;

export class ProbeClients {
  readonly #options: ClientOptions;
  readonly #clients = new Map<string, MqttClient>();
  #closing = false;
  #underWay = 0;
  /** Messages that had to be sent again. */
  retried = 0;

  constructor(options: ClientOptions) {
    this.#options = options;
  }

  /** @throws SandlarderError BROKER_UNAVAILABLE where the broker cannot be reached or refuses */
  async connect(probes: readonly string[]): Promise<void> {
    await Promise.all(probes.map((probe) => this.#connectOne(probe)));
  }

  async #connectOne(probe: string): Promise<void> {
    const { brokerUrl, username, password, site } = this.#options;
    const client = mqtt.connect(brokerUrl, {
      clientId: `probe-${site}-${probe}`,
      clean: true,
      reconnectPeriod: 500,
      connectTimeout: CONNECT_ms,
      will: { topic: statusTopic(site, probe), payload: Buffer.from('offline'), qos: 1, retain: true },
      ...(username !== undefined && { username }),
      ...(password !== undefined && { password }),
    });
    this.#clients.set(probe, client);
    await new Promise<void>((resolve, reject) => {
      const refuse = (error: Error): void => {
        const reason = error.message || (error as { code?: string }).code || 'no answer';
        reject(
          new SandlarderError('BROKER_UNAVAILABLE', `no connection to the broker at ${brokerUrl}: ${reason}`),
        );
      };
      client.once('error', refuse);
      client.once('connect', () => {
        client.removeListener('error', refuse);
        // After that a broken connection is no failure: the client connects again.
        client.on('error', () => undefined);
        resolve();
      });
    });
    await this.publish(probe, statusTopic(site, probe), 'online', true);
  }

  /**
   * Sends until the broker has acknowledged: a publish may fail with 'Connection closed' and is then tried again.
   *
   * @returns whether it was acknowledged; not so where the connections were closed before
   */
  async publish(probe: string, topic: string, payload: string, retain = false): Promise<boolean> {
    const client = this.#clients.get(probe);
    while (client && !this.#closing) {
      this.#underWay += 1;
      try {
        await client.publishAsync(topic, payload, { qos: 1, retain });
        return true;
      } catch {
        this.retried += 1;
        await wait(RETRY_ms);
      } finally {
        this.#underWay -= 1;
      }
    }
    return false;
  }

  /** Says goodbye for every probe and leaves; at once where there is no connection. */
  async close(): Promise<void> {
    this.#closing = true;
    await Promise.all([...this.#clients].map(([probe, client]) => this.#leave(probe, client)));
  }

  async #leave(probe: string, client: MqttClient): Promise<void> {
    const said = client.connected && (await this.#sayOffline(probe, client));
    // An orderly end would wait for acknowledgements that may never come.
    await client.endAsync(!said || this.#underWay > 0);
  }

  /** Whether the broker took it in time. */
  async #sayOffline(probe: string, client: MqttClient): Promise<boolean> {
    const topic = statusTopic(this.#options.site, probe);
    const taken = client.publishAsync(topic, 'offline', { qos: 1, retain: true }).then(
      () => true,
      () => false,
    );
    return Promise.race([taken, wait(FAREWELL_ms, false, { ref: false })]);
  }
}
