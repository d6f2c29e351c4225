/** How many messages are under way without an acknowledgement: a bound, and an end to waiting for one. */

export interface InFlightOptions {
  /** Most messages under way at once. */
  readonly most: number;
  /** Longest time in which nothing at all is acknowledged while something is under way, ms. */
  readonly patience_ms: number;
  /** Ends all waiting at once. */
  readonly signal?: AbortSignal | undefined;
}

export class InFlight {
  readonly #options: InFlightOptions;
  readonly #timer: NodeJS.Timeout;
  #underWay = 0;
  #closed = false;
  #silent = false;
  #waiter: (() => void) | undefined;
  readonly #wake = (): void => this.#waiter?.();

  constructor(options: InFlightOptions) {
    this.#options = options;
    this.#timer = setTimeout(() => this.#onSilence(), options.patience_ms);
    options.signal?.addEventListener('abort', this.#wake);
  }

  /** Nothing was acknowledged for too long. */
  get silent(): boolean {
    return this.#silent;
  }

  /** No more is to be sent: somebody asked for an end, or nobody answers. */
  get ended(): boolean {
    return this.#silent || this.#options.signal?.aborted === true;
  }

  /** Counts one more as under way. */
  add(): void {
    if (this.#underWay === 0) this.#beginPatience();
    this.#underWay += 1;
  }

  /** One was acknowledged, or given up. */
  remove(): void {
    this.#underWay -= 1;
    this.#beginPatience();
    this.#wake();
  }

  /** Resolves when there is room for one more, or at the end. */
  room(): Promise<void> {
    return this.#until(this.#options.most - 1);
  }

  /** Resolves when nothing is under way, or at the end. */
  drained(): Promise<void> {
    return this.#until(0);
  }

  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#options.signal?.removeEventListener('abort', this.#wake);
  }

  /** One waiter at a time: the sender. */
  async #until(most: number): Promise<void> {
    while (this.#underWay > most && !this.ended)
      await new Promise<void>((resolve) => {
        this.#waiter = resolve;
      });
  }

  /** A refresh would wake a cleared timer again. */
  #beginPatience(): void {
    if (!this.#closed) this.#timer.refresh();
  }

  #onSilence(): void {
    if (this.#underWay > 0) this.#silent = true;
    else this.#beginPatience();
    this.#wake();
  }
}
