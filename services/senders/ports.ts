/** What the senders need of the rest: declared here, joined in serve.ts. */

/** A message waiting to be delivered. */
export interface OutboxMessage {
  /** Unique for ever: a receiver that sees it twice may drop the second. */
  readonly key: string;
  /** The way: `console`, `webhook`. */
  readonly via: string;
  /** Where to, as the way understands it: a URL for `webhook`. */
  readonly to: string;
  /** JSON text. */
  readonly body: string;
  /** How often delivery was tried already. */
  readonly attempts: number;
  /** Wall clock at which it was written, ms. */
  readonly createdAt: number;
}

/** The outbox at rest. */
export interface Outbox {
  /** Undelivered messages whose next attempt is due, oldest first. */
  due(now: number, most: number): OutboxMessage[];
  /** Wall clock of the earliest attempt after `now`; undefined where none waits. */
  nextAttemptAt(now: number): number | undefined;
  delivered(key: string, at: number): void;
  failed(key: string, at: number, nextAttemptAt: number, error: string): void;
  /** Nothing more will be tried. */
  givenUp(key: string, at: number, error: string): void;
}

/** A way of telling. */
export interface Way {
  readonly name: string;
  /** Resolves when the receiver has it; rejects with the reason otherwise. */
  send(message: OutboxMessage): Promise<void>;
}

/** Time as the senders see it, injected so that tests need not wait. */
export interface Timer {
  now(): number;
  /** Calls once after the delay (ms); the returned function takes it back. */
  after(delay_ms: number, call: () => void): () => void;
}
