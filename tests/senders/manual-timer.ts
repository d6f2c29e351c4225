/** A timer whose time passes only when a test says so. */
import type { Timer } from '../../services/senders/ports.js';

interface Call {
  readonly at: number;
  readonly call: () => void;
}

export class ManualTimer implements Timer {
  #now: number;
  readonly #calls = new Set<Call>();

  constructor(now: number) {
    this.#now = now;
  }

  now(): number {
    return this.#now;
  }

  after(delay_ms: number, call: () => void): () => void {
    const entry = { at: this.#now + delay_ms, call };
    this.#calls.add(entry);
    return () => this.#calls.delete(entry);
  }

  /** Times of the calls that wait, from now, ms, ascending. */
  get waits_ms(): number[] {
    return [...this.#calls].map(({ at }) => at - this.#now).sort((a, b) => a - b);
  }

  /** Lets the time pass; calls come in order, each at its time, with all that follows from them. */
  async advance(by_ms: number): Promise<void> {
    const end = this.#now + by_ms;
    for (;;) {
      const next = [...this.#calls].sort((a, b) => a.at - b.at)[0];
      if (!next || next.at > end) break;
      this.#calls.delete(next);
      this.#now = Math.max(this.#now, next.at);
      next.call();
      await settle();
    }
    this.#now = end;
    await settle();
  }

  /** Sets the clock without calling anybody, as a person or a time server does. */
  set(now: number): void {
    this.#now = now;
  }
}

/** Waits until promises that wait for nothing outside have all been followed up. */
export async function settle(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
}
