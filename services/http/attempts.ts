/** How often something may be tried within a minute, by one address and by all together. */
import { MINUTE_ms } from '../core/model/time.js';

export interface AttemptLimits {
  readonly ofOne: number;
  /** Also the most addresses that are kept. */
  readonly ofAll: number;
}

export class Attempts {
  readonly #limits: AttemptLimits;
  /** Wall clock, ms. */
  readonly #now: () => number;
  #since = Number.NEGATIVE_INFINITY;
  #all = 0;
  #byAddress = new Map<string, number>();

  constructor(limits: AttemptLimits, now: () => number) {
    this.#limits = limits;
    this.#now = now;
  }

  /** Counts an attempt. @returns seconds to wait where it is one too many, 1 to 60; undefined where it may pass */
  refuse(address: string): number | undefined {
    const now = this.#now();
    // Also where the clock was put back.
    if (!(now >= this.#since && now < this.#since + MINUTE_ms)) {
      this.#since = now;
      this.#all = 0;
      this.#byAddress = new Map();
    }
    const before = this.#byAddress.get(address) ?? 0;
    if (!(before < this.#limits.ofOne && this.#all < this.#limits.ofAll))
      return Math.ceil((this.#since + MINUTE_ms - now) / 1000);
    this.#byAddress.set(address, before + 1);
    this.#all += 1;
    return undefined;
  }
}
