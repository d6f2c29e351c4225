/**
 * Keeps the retained lamp topic of each bed at the bed's most urgent open alarm, or empty where none is open.
 *
 * A lamp shows how things stand, not what happened: so there is no outbox. Only the newest payload of a bed counts,
 * and all beds are published again at every connection.
 */
import { requireId } from '../core/alarms/alarm-id.js';
import { alarmDocument } from '../core/alarms/document.js';
import { mostUrgent } from '../core/alarms/urgency.js';
import type { Alarm } from '../core/model/alarm.js';
import { oneLine } from './one-line.js';
import type { Timer } from './ports.js';

export interface Publication {
  readonly topic: string;
  /** JSON text, or empty: the broker then forgets the retained message [MQTT-3.3.1-10]. */
  readonly payload: string;
  readonly qos: 1;
  readonly retain: true;
}

export interface LampLimits {
  /** Publications in flight together: a thousand beds do not fill the client's queue at a reconnection. */
  readonly concurrency: number;
  /** Until a failed publication is tried again, ms. */
  readonly retry_ms: number;
}

export const LAMP_LIMITS: LampLimits = { concurrency: 16, retry_ms: 5000 };

export interface LampOptions {
  /** Resolves when the broker has it. One that hangs is given up at the next `refresh`. */
  readonly publish: (publication: Publication) => Promise<void>;
  readonly timer: Timer;
  readonly log?: (event: {
    readonly type: 'lamp-failed';
    readonly topic: string;
    readonly error: string;
  }) => void;
  readonly limits?: Partial<LampLimits>;
}

export class Lamp {
  readonly #options: LampOptions;
  readonly #limits: LampLimits;
  /** By topic: what is to be shown. */
  readonly #wanted = new Map<string, string>();
  /** Topics whose wanted payload the broker may not have, in the order of their change. */
  readonly #behind = new Set<string>();
  #inFlight = new Set<string>();
  #cancelRetry: (() => void) | undefined;
  #closed = false;

  constructor(options: LampOptions) {
    this.#options = options;
    this.#limits = Object.freeze({ ...LAMP_LIMITS, ...options.limits });
  }

  /**
   * Takes in how a bed stands; publishes where that changes what the lamp shows.
   *
   * @param alarms all alarms of the bed, or only the open ones
   * @throws SandlarderError OUT_OF_DOMAIN for a site or bed that is no id: it could address other topics
   */
  show(site: string, bed: string, alarms: readonly Alarm[]): void {
    requireId('site', site);
    requireId('bed', bed);
    const topic = `sandlarder/v1/${site}/beds/${bed}/alarm`;
    const alarm = mostUrgent(alarms);
    const payload = alarm ? JSON.stringify(alarmDocument(alarm)) : '';
    if (this.#wanted.get(topic) === payload) return;
    this.#wanted.set(topic, payload);
    this.#behind.add(topic);
    this.#work();
  }

  /** Publishes every bed again: call at every connection to the broker, the first too. */
  refresh(): void {
    this.#inFlight = new Set();
    for (const topic of this.#wanted.keys()) this.#behind.add(topic);
    this.#work();
  }

  /** Publishes nothing more. What is retained stays. */
  close(): void {
    this.#closed = true;
    this.#cancelRetry?.();
  }

  #work(): void {
    if (this.#closed) return;
    this.#cancelRetry?.();
    this.#cancelRetry = undefined;
    for (const topic of this.#behind) {
      if (this.#inFlight.size >= this.#limits.concurrency) return;
      if (!this.#inFlight.has(topic)) void this.#publish(topic, this.#inFlight);
    }
  }

  /** @param inFlight of the connection for which this began: after a refresh the outcome no longer matters */
  async #publish(topic: string, inFlight: Set<string>): Promise<void> {
    inFlight.add(topic);
    this.#behind.delete(topic);
    const payload = this.#wanted.get(topic) ?? '';
    try {
      await this.#options.publish({ topic, payload, qos: 1, retain: true });
      if (inFlight !== this.#inFlight) return;
      inFlight.delete(topic);
      this.#work();
    } catch (error) {
      if (inFlight !== this.#inFlight) return;
      inFlight.delete(topic);
      this.#failed(topic, error);
    }
  }

  #failed(topic: string, error: unknown): void {
    const reason = oneLine(error instanceof Error ? error.message : String(error), 200);
    this.#options.log?.({ type: 'lamp-failed', topic, error: reason });
    this.#behind.add(topic);
    if (this.#closed) return;
    this.#cancelRetry ??= this.#options.timer.after(this.#limits.retry_ms, () => this.#work());
  }
}
