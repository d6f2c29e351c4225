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

export class ProbeClients {
  readonly #options: ClientOptions;
  readonly #clients = new Map<string, MqttClient>();
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

  /** Sends until the broker has acknowledged, or the signal says to stop. */
  async publish(
    probe: string,
    topic: string,
    payload: string,
    retain = false,
    signal?: AbortSignal,
  ): Promise<void> {
    const client = this.#clients.get(probe);
    while (client && !signal?.aborted) {
      try {
        await client.publishAsync(topic, payload, { qos: 1, retain });
        return;
      } catch {
        this.retried += 1;
        await wait(RETRY_ms);
      }
    }
  }

  /** Says goodbye for every probe and leaves; at once where there is no connection. */
  async close(): Promise<void> {
    await Promise.all(
      [...this.#clients].map(async ([probe, client]) => {
        if (client.connected)
          await this.publish(probe, statusTopic(this.#options.site, probe), 'offline', true);
        await client.endAsync(!client.connected);
      }),
    );
  }
}
