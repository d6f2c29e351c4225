/** Publishes a simulated season over MQTT, at a pace or as fast as it is acknowledged. */
import { setTimeout as wait } from 'node:timers/promises';
import { SandlarderError } from '../services/core/errors.js';
import { DAY_ms } from '../services/core/model/time.js';
import type { Delivery } from './delivery.js';
import { InFlight } from './in-flight.js';
import { packOf, readingsTopic } from './pack.js';
import { ProbeClients } from './probe-clients.js';
import type { Scenario } from './scenario.js';
import { simulateSeason } from './season.js';

export interface PublishOptions {
  readonly brokerUrl: string;
  readonly username?: string;
  readonly password?: string;
  readonly scenario: Scenario;
  readonly seed: number;
  /** When the season begins, ms. */
  readonly from: number;
  /** Simulated seconds in a second; Infinity for as fast as acknowledged. */
  readonly speed: number;
  readonly onProgress?: (simulatedTime: number) => void;
  readonly signal?: AbortSignal;
  /** How long the broker may acknowledge nothing before the season is given up, ms; two minutes where absent. */
  readonly patience_ms?: number;
}

export interface Published {
  /** Messages that the broker has acknowledged. */
  readonly published: number;
  readonly retried: number;
  readonly bytes: number;
}

/** Messages that may be under way without an acknowledgement. */
const WINDOW_messages = 256;

/** Long enough for a broker to be started again. */
const PATIENCE_ms = 120_000;

/** Least time that is waited for at a pace, ms: shorter waits are made up for by the next. */
const LEAST_WAIT_ms = 5;

/** Longest single wait: timers take no more than 24 days. */
const MOST_WAIT_ms = DAY_ms;

/** @throws SandlarderError BROKER_UNAVAILABLE where the broker cannot be reached, or stops answering */
export async function publish(options: PublishOptions): Promise<Published> {
  const { scenario, seed, from } = options;
  const clients = new ProbeClients({ ...options, site: scenario.site.id });
  const sending = new Sending(clients, options);
  try {
    await clients.connect([
      ...scenario.beds.flatMap((bed) => bed.probes.map(({ id }) => id)),
      ...scenario.shade,
    ]);
    for await (const day of simulateSeason(scenario, seed)) {
      for (const delivery of day) await sending.send(delivery);
      if (sending.ended) break;
      options.onProgress?.(from + (day.at(-1)?.at_s ?? 0) * 1000);
    }
    await sending.done();
  } finally {
    sending.close();
    await clients.close();
  }
  return { published: sending.published, retried: clients.retried, bytes: sending.bytes };
}

class Sending {
  readonly #clients: ProbeClients;
  readonly #options: PublishOptions;
  readonly #inFlight: InFlight;
  readonly #began = performance.now();
  published = 0;
  bytes = 0;

  constructor(clients: ProbeClients, options: PublishOptions) {
    this.#clients = clients;
    this.#options = options;
    const { patience_ms = PATIENCE_ms, signal } = options;
    this.#inFlight = new InFlight({ most: WINDOW_messages, patience_ms, signal });
  }

  get ended(): boolean {
    return this.#inFlight.ended;
  }

  /** Waits for its time and for room, then sends; does nothing once sending has ended. */
  async send({ at_s, probe, readings }: Delivery): Promise<void> {
    await this.#untilDue(at_s);
    await this.#inFlight.room();
    if (this.ended) return;
    const { scenario, from } = this.#options;
    void this.#send(probe, readingsTopic(scenario.site.id, probe), packOf(probe, readings, from));
  }

  async #untilDue(at_s: number): Promise<void> {
    const { speed, signal } = this.#options;
    for (;;) {
      const due_ms = this.#began + (at_s / speed) * 1000 - performance.now();
      if (!(due_ms > LEAST_WAIT_ms) || this.ended) return;
      await wait(Math.min(due_ms, MOST_WAIT_ms), undefined, { signal }).catch(() => undefined);
    }
  }

  async #send(probe: string, topic: string, payload: string): Promise<void> {
    this.#inFlight.add();
    const acknowledged = await this.#clients.publish(probe, topic, payload);
    if (acknowledged) {
      this.published += 1;
      this.bytes += Buffer.byteLength(payload);
    }
    this.#inFlight.remove();
  }

  /** @throws SandlarderError BROKER_UNAVAILABLE where nothing was acknowledged for too long */
  async done(): Promise<void> {
    await this.#inFlight.drained();
    if (!this.#inFlight.silent) return;
    const { brokerUrl, patience_ms = PATIENCE_ms } = this.#options;
    throw new SandlarderError(
      'BROKER_UNAVAILABLE',
      `the broker at ${brokerUrl} acknowledged nothing for ${patience_ms / 1000} s`,
    );
  }

  close(): void {
    this.#inFlight.close();
  }
}
