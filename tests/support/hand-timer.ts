/** A timer that a test moves: nothing waits by itself. */

export class HandTimer {
  readonly #waiting = new Map<object, { readonly at: number; readonly call: () => void }>();
  /** ms */
  #now = 0;

  readonly clock = (): number => this.#now;

  readonly after = (delay_ms: number, call: () => void): (() => void) => {
    const key = {};
    this.#waiting.set(key, { at: this.#now + delay_ms, call });
    return () => this.#waiting.delete(key);
  };

  /** How many wait. */
  get waiting(): number {
    return this.#waiting.size;
  }

  /** Moves on, and calls what falls due meanwhile, in order. */
  pass(time_ms: number): void {
    const until = this.#now + time_ms;
    for (;;) {
      const [next] = [...this.#waiting].sort(([, one], [, other]) => one.at - other.at);
      if (!next || next[1].at > until) break;
      this.#waiting.delete(next[0]);
      this.#now = next[1].at;
      next[1].call();
    }
    this.#now = until;
  }
}
