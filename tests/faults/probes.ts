/** A gateway that publishes for probes, each message again and again until it is acknowledged. */
import { connect } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import mqtt, { MqttClient } from 'mqtt';
import type { Undo } from '../bench/processes.js';
import type { Message } from '../support/season.js';

/** Before it tries again, ms. */
const AGAIN_ms = 20;
/** Messages under way together. */
const WINDOW = 30;

export class Probes {
  readonly #url: string;
  #client: MqttClient;
  #sent = 0;
  #acknowledged = 0;

  private constructor(url: string) {
    this.#url = url;
    this.#client = this.#connect();
  }

  /** @param url of the broker, or the path of its socket */
  static at(undo: Undo, url: string): Probes {
    const probes = new Probes(url);
    undo(() => probes.#client.endAsync(true));
    return probes;
  }

  /** PUBLISH packets that left. */
  get sent(): number {
    return this.#sent;
  }

  /** Messages that were acknowledged. */
  get acknowledged(): number {
    return this.#acknowledged;
  }

  /** In order; settles when all are acknowledged. */
  async publish(messages: readonly Message[], window = WINDOW): Promise<void> {
    const queue = messages[Symbol.iterator]();
    const work = async (): Promise<void> => {
      for (const message of queue) await this.#publishOne(message);
    };
    await Promise.all(Array.from({ length: window }, work));
  }

  async #publishOne({ topic, payload }: Message): Promise<void> {
    for (;;) {
      try {
        await this.#client.publishAsync(topic, payload, { qos: 1 });
        this.#acknowledged += 1;
        return;
      } catch {
        await wait(AGAIN_ms);
        if (this.#client.disconnected && !this.#client.reconnecting) this.#client = this.#connect();
      }
    }
  }

  #connect(): MqttClient {
    const options = { reconnectPeriod: 50, connectTimeout: 2000, keepalive: 10, clientId: 'gateway' };
    const client = this.#url.startsWith('/')
      ? new MqttClient(() => connect(this.#url), options)
      : mqtt.connect(this.#url, options);
    client.on('error', () => undefined);
    client.on('packetsend', ({ cmd }) => {
      if (cmd === 'publish') this.#sent += 1;
    });
    return client;
  }
}
