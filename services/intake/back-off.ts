/** Pauses between attempts: each twice the one before, up to a longest, and shortened at random. */
export class BackOff {
  readonly #first_ms: number;
  readonly #longest_ms: number;
  readonly #random: () => number;
  #next_ms: number;

  /** @param random from 0 to below 1: many services that lost one broker must not come back in step */
  constructor(first_ms: number, longest_ms: number, random: () => number = Math.random) {
    this.#first_ms = first_ms;
    this.#longest_ms = longest_ms;
    this.#random = random;
    this.#next_ms = first_ms;
  }

  /** Pause before the next attempt, ms: from half of its full length to all of it. */
  next(): number {
    const full_ms = this.#next_ms;
    this.#next_ms = Math.min(full_ms * 2, this.#longest_ms);
    return Math.ceil(full_ms * (0.5 + 0.5 * this.#random()));
  }

  /** After a success. */
  reset(): void {
    this.#next_ms = this.#first_ms;
  }
}
