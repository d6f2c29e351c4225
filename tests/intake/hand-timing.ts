/** Time that passes only when a test says so. */
import type { Timing } from '../../services/intake/collector.js';

interface Timer {
  readonly run: () => void;
  readonly at: number;
}

export class HandTiming implements Timing {
  #now = 0;
  #timers = new Set<Timer>();
  #immediates: (() => void)[] = [];

  readonly setTimeout = (run: () => void, delay_ms: number): Timer => {
    const timer = { run, at: this.#now + delay_ms };
    this.#timers.add(timer);
    return timer;
  };

  readonly clearTimeout = (timer: unknown): void => {
    this.#timers.delete(timer as Timer);
  };

  readonly setImmediate = (run: () => void): void => {
    this.#immediates.push(run);
  };

  /** Times at which timers are due, from now on, ms. */
  get due(): number[] {
    return [...this.#timers].map(({ at }) => at - this.#now).sort((one, other) => one - other);
  }

  get waitingImmediates(): number {
    return this.#immediates.length;
  }

  /** One turn of the event loop. */
  turn(): void {
    const immediates = this.#immediates;
    this.#immediates = [];
    for (const run of immediates) run();
  }

  pass(by_ms: number): void {
    const end = this.#now + by_ms;
    for (;;) {
      const next = [...this.#timers].filter(({ at }) => at <= end).sort((one, other) => one.at - other.at)[0];
      if (next === undefined) break;
      this.#timers.delete(next);
      this.#now = next.at;
      next.run();
    }
    this.#now = end;
  }
}
