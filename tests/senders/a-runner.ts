/** An outbox runner with everything around it in the hands of a test. */
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { type OutboxEvent, OutboxRunner } from '../../services/senders/outbox-runner.js';
import type { OutboxMessage, Way } from '../../services/senders/ports.js';
import { ArrayOutbox, aMessage } from './array-outbox.js';
import { ManualTimer, settle } from './manual-timer.js';

export const NOW = Date.parse('2026-05-24T15:00:00Z');
export const HOUR_ms = 3_600_000;

/** A way that keeps what it was given until the test answers for the receiver. */
export class HeldWay implements Way {
  readonly name = 'webhook';
  readonly sent: string[] = [];
  readonly #open = new Map<string, { resolve: () => void; reject: (error: unknown) => void }>();

  send({ key }: OutboxMessage): Promise<void> {
    this.sent.push(key);
    return new Promise((resolve, reject) => this.#open.set(key, { resolve, reject }));
  }

  get open(): string[] {
    return [...this.#open.keys()];
  }

  async succeed(key: string): Promise<void> {
    this.#open.get(key)?.resolve();
    this.#open.delete(key);
    await settle();
  }

  async fail(key: string, error: unknown = new DeliveryError('RECEIVER_UNAVAILABLE', 'down')): Promise<void> {
    this.#open.get(key)?.reject(error);
    this.#open.delete(key);
    await settle();
  }
}

export function aRunner(ways?: readonly Way[]) {
  const outbox = new ArrayOutbox();
  const timer = new ManualTimer(NOW);
  const way = new HeldWay();
  const events: OutboxEvent[] = [];
  const runner = new OutboxRunner({
    outbox,
    ways: ways ?? [way],
    timer,
    random: () => 0,
    log: (event) => events.push(event),
  });
  const kick = async (...messages: OutboxMessage[]): Promise<void> => {
    outbox.add(...messages);
    runner.kick();
    await settle();
  };
  return { outbox, timer, way, events, runner, kick };
}

/** A message to a receiver, written now. */
export const from = (to: string, key: string) => aMessage({ key, to, createdAt: NOW });
