/** Publishes a simulated season over MQTT, at a pace or as fast as it is acknowledged. */
import { setTimeout as wait } from 'node:timers/promises';
import type { Delivery } from './delivery.js';
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
}

export interface Published {
  readonly published: number;
  readonly retried: number;
  readonly bytes: number;
}

/** Messages that may be under way without an acknowledgement. */
const WINDOW_messages = 256;

/** Least time that is waited for at a pace, ms: shorter waits are made up for by the next. */
const LEAST_WAIT_ms = 5;

/** @throws SandlarderError BROKER_UNAVAILABLE where the broker cannot be reached to begin with */
export async function publish(options: PublishOptions): Promise<Published> {
  const { scenario, seed, from, signal } = options;
  const clients = new ProbeClients({ ...options, site: scenario.site.id });
  const sending = new Sending(clients, options);
  try {
    await clients.connect([
      ...scenario.beds.flatMap((bed) => bed.probes.map(({ id }) => id)),
      ...scenario.shade,
    ]);
    for await (const day of simulateSeason(scenario, seed)) {
      for (const delivery of day) {
        if (signal?.aborted) break;
        await sending.send(delivery);
      }
      if (signal?.aborted) break;
      options.onProgress?.(from + (day.at(-1)?.at_s ?? 0) * 1000);
    }
    await sending.done();
  } finally {
    await clients.close();
  }
  return { published: sending.published, retried: clients.retried, bytes: sending.bytes };
}

class Sending {
  readonly #clients: ProbeClients;
  readonly #options: PublishOptions;
  readonly #underWay = new Set<Promise<void>>();
  readonly #began = performance.now();
  published = 0;
  bytes = 0;

  constructor(clients: ProbeClients, options: PublishOptions) {
    this.#clients = clients;
    this.#options = options;
  }

  /** Waits for its time and for room, then sends. */
  async send({ at_s, probe, readings }: Delivery): Promise<void> {
    const { scenario, from, speed, signal } = this.#options;
    const due_ms = this.#began + (at_s / speed) * 1000 - performance.now();
    if (due_ms > LEAST_WAIT_ms) await wait(due_ms, undefined, { signal }).catch(() => undefined);
    while (this.#underWay.size >= WINDOW_messages) await Promise.race(this.#underWay);
    const payload = packOf(probe, readings, from);
    this.published += 1;
    this.bytes += Buffer.byteLength(payload);
    const sent = this.#clients
      .publish(probe, readingsTopic(scenario.site.id, probe), payload, false, signal)
      .finally(() => this.#underWay.delete(sent));
    this.#underWay.add(sent);
  }

  async done(): Promise<void> {
    await Promise.all(this.#underWay);
  }
}
