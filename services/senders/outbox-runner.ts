/**
 * Delivers what stands in the outbox: at least once, each message until it is delivered or given up.
 *
 * What was done is kept in the outbox alone, so that a restart goes on where this left off. A crash between a
 * receiver's answer and its record sends the message again: that is what the key is for. Messages to one target
 * go one after another; one that failed is overtaken by those after it.
 */
import { DeliveryError } from './delivery-error.js';
import { inTime } from './in-time.js';
import { pickDue, targetOf } from './outbox-pick.js';
import type { Outbox, OutboxMessage, Timer, Way } from './ports.js';
import { PATIENCE, type Patience, reasonOf, verdictOn } from './verdict.js';

export interface RunnerLimits extends Patience {
  /** Messages in flight together: bounds sockets and memory. */
  readonly concurrency: number;
  /** For a way to come back at all, ms: keeps a hanging one from blocking its target. */
  readonly send_ms: number;
  /** For those in flight when closing, ms. */
  readonly close_ms: number;
  /** Longest time without a look into the outbox while anything waits there, ms: a clock may be set meanwhile. */
  readonly look_ms: number;
  /** Until the outbox is asked again after it failed, ms. */
  readonly outboxRetry_ms: number;
}

export const RUNNER_LIMITS: RunnerLimits = {
  ...PATIENCE,
  concurrency: 4,
  send_ms: 60_000,
  close_ms: 15_000,
  look_ms: 15 * 60_000,
  outboxRetry_ms: 5000,
};

/** What happened, for logs and counters. Addresses are left out: they may hold secrets. */
export type OutboxEvent =
  | { readonly type: 'delivered'; readonly key: string; readonly via: string }
  | {
      readonly type: 'failed' | 'given-up';
      readonly key: string;
      readonly via: string;
      readonly error: string;
    }
  | { readonly type: 'outbox-unavailable'; readonly error: string };

export interface RunnerOptions {
  readonly outbox: Outbox;
  readonly ways: readonly Way[];
  readonly timer: Timer;
  /** In [0, 1), as Math.random. */
  readonly random: () => number;
  readonly log?: (event: OutboxEvent) => void;
  readonly limits?: Partial<RunnerLimits>;
}

interface Outcome {
  readonly event: OutboxEvent;
  /** Writes it down in the outbox. */
  readonly write: () => void;
}

export class OutboxRunner {
  readonly #outbox: Outbox;
  readonly #ways: ReadonlyMap<string, Way>;
  readonly #timer: Timer;
  readonly #random: () => number;
  readonly #log: (event: OutboxEvent) => void;
  readonly #limits: RunnerLimits;
  /** By target: at most one message of each. */
  readonly #inFlight = new Map<string, Promise<void>>();
  /** Targets that asked to be left alone, and until when. */
  readonly #heldUntil = new Map<string, number>();
  /** By key: what could not be written down yet. Such a message is not sent again while this process lives. */
  readonly #unrecorded = new Map<string, Outcome>();
  #cancelWake: () => void = () => undefined;
  #kicked = false;
  #closing = false;
  #closed = false;

  constructor(options: RunnerOptions) {
    this.#outbox = options.outbox;
    this.#ways = new Map(options.ways.map((way) => [way.name, way]));
    this.#timer = options.timer;
    this.#random = options.random;
    this.#log = options.log ?? (() => undefined);
    this.#limits = Object.freeze({ ...RUNNER_LIMITS, ...options.limits });
  }

  /**
   * Looks into the outbox soon: call once at the start, and whenever messages were written. The look comes after
   * the caller's synchronous work, so a kick from within a transaction sees it committed.
   */
  kick(): void {
    if (this.#kicked || this.#closing) return;
    this.#kicked = true;
    queueMicrotask(() => {
      this.#kicked = false;
      this.#look();
    });
  }

  /** The wall clock was set: who asked to be left alone is, as long as before. @param by forward where positive, ms */
  clockSet(by: number): void {
    for (const [target, until] of this.#heldUntil) this.#heldUntil.set(target, until + by);
    this.kick();
  }

  /** Starts nothing more and waits for those in flight, `close_ms` at the most; later outcomes are not recorded. */
  async close(): Promise<void> {
    this.#closing = true;
    this.#cancelWake();
    const all = Promise.all(this.#inFlight.values()).then(() => undefined);
    await inTime(all, this.#timer, this.#limits.close_ms, () => undefined);
    if (!this.#closed) this.#recordAgain();
    this.#closed = true;
  }

  #look(): void {
    if (this.#closing) return;
    this.#cancelWake();
    const now = this.#timer.now();
    for (const [target, until] of this.#heldUntil) if (!(until > now)) this.#heldUntil.delete(target);
    this.#recordAgain();
    try {
      const free = this.#limits.concurrency - this.#inFlight.size;
      for (const message of pickDue(this.#outbox, now, free, this.#held)) this.#start(message);
      this.#wakeAt(now, this.#nextLook(now));
    } catch (error) {
      this.#log({ type: 'outbox-unavailable', error: reasonOf(error) });
      this.#wakeAt(now, now + this.#limits.outboxRetry_ms);
    }
  }

  readonly #held = (message: OutboxMessage): boolean => {
    const target = targetOf(message);
    return this.#inFlight.has(target) || this.#heldUntil.has(target) || this.#unrecorded.has(message.key);
  };

  #nextLook(now: number): number | undefined {
    const times = [...this.#heldUntil.values()];
    const next = this.#outbox.nextAttemptAt(now);
    if (next !== undefined) times.push(next);
    if (this.#unrecorded.size > 0) times.push(now + this.#limits.outboxRetry_ms);
    return times.length > 0 ? Math.min(...times) : undefined;
  }

  #wakeAt(now: number, time: number | undefined): void {
    if (time === undefined) return;
    const wait_ms = Math.min(time - now, this.#limits.look_ms);
    this.#cancelWake = this.#timer.after(wait_ms, () => this.#look());
  }

  #start(message: OutboxMessage): void {
    const target = targetOf(message);
    const attempt = this.#attempt(message).then((outcome) => {
      this.#inFlight.delete(target);
      if (!this.#closed) this.#record(message.key, outcome);
      this.kick();
    });
    this.#inFlight.set(target, attempt);
  }

  async #attempt(message: OutboxMessage): Promise<Outcome> {
    const way = this.#ways.get(message.via);
    if (!way) {
      const known = [...this.#ways.keys()].join(', ');
      return this.#givenUp(message, `expected via to be one of ${known}, got ${message.via}`);
    }
    try {
      await inTime(way.send(message), this.#timer, this.#limits.send_ms, () => {
        const reason = `${way.name}: expected an end within ${this.#limits.send_ms} ms, got none`;
        throw new DeliveryError('RECEIVER_UNAVAILABLE', reason);
      });
    } catch (error) {
      return this.#afterError(message, error);
    }
    const { key, via } = message;
    const at = this.#timer.now();
    return { event: { type: 'delivered', key, via }, write: () => this.#outbox.delivered(key, at) };
  }

  #afterError(message: OutboxMessage, error: unknown): Outcome {
    const { key, via } = message;
    const at = this.#timer.now();
    const verdict = verdictOn(message, error, at, this.#random(), this.#limits);
    const { reason } = verdict;
    if (verdict.type === 'give-up') return this.#givenUp(message, reason);
    if (verdict.holdUntil !== undefined) this.#heldUntil.set(targetOf(message), verdict.holdUntil);
    return {
      event: { type: 'failed', key, via, error: reason },
      write: () => this.#outbox.failed(key, at, verdict.nextAttemptAt, reason),
    };
  }

  #givenUp({ key, via }: OutboxMessage, error: string): Outcome {
    const at = this.#timer.now();
    return {
      event: { type: 'given-up', key, via, error },
      write: () => this.#outbox.givenUp(key, at, error),
    };
  }

  #record(key: string, outcome: Outcome): void {
    try {
      outcome.write();
    } catch (error) {
      this.#unrecorded.set(key, outcome);
      this.#log({ type: 'outbox-unavailable', error: reasonOf(error) });
      return;
    }
    this.#unrecorded.delete(key);
    this.#log(outcome.event);
  }

  #recordAgain(): void {
    for (const [key, outcome] of this.#unrecorded) this.#record(key, outcome);
  }
}
