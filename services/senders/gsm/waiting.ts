/** A wait that can be cut short, also before it begins. */
import type { Timer } from '../ports.js';

export class Waiting {
  readonly #timer: Timer;
  #woken = false;
  #end: (() => void) | undefined;

  constructor(timer: Timer) {
    this.#timer = timer;
  }

  /** Resolves after the time, or as soon as `wake` is called: at once where it was since the last wait. */
  async wait(time_ms: number): Promise<void> {
    if (!this.#woken)
      await new Promise<void>((resolve) => {
        const cancel = this.#timer.after(time_ms, resolve);
        this.#end = () => {
          cancel();
          resolve();
        };
      });
    this.#woken = false;
    this.#end = undefined;
  }

  wake(): void {
    this.#woken = true;
    this.#end?.();
  }
}
