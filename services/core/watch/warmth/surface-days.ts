/** How the surface of the last days was otherwise than the shade says, and by how much a day is believed to be. */
import type { Layout } from './layout.js';
import { SURFACE_DAY_BLIND_C, SURFACE_DAY_C, SURFACE_DAY_LEAST_C, SURFACE_DAY_MOST_C } from './priors.js';
import type { StateMatrix } from './state-matrix.js';

/** Days after which one is known as well as it will be; steps before what was seen of any is learned from; how fast. */
const KNOWN_days = 3;
const LEARNED_AFTER_steps = 24;
const RATE = 0.1;

export class SurfaceDays {
  readonly #layout: Layout;
  readonly #state: StateMatrix;
  /** Mean square of what was seen, °C squared. */
  variance = SURFACE_DAY_C ** 2;

  constructor(layout: Layout, state: StateMatrix) {
    this.#layout = layout;
    this.#state = state;
  }

  /**
   * @param steps since the beginning
   * @param unsure without a shade probe
   * @returns the unknown that now stands for this day
   */
  begin(day: number, steps: number, unsure: boolean): number {
    const known = this.#layout.day(day - KNOWN_days);
    if (steps > LEARNED_AFTER_steps) {
      const seen = this.#state.mean(known) ** 2 + this.#state.variance(known);
      this.variance += RATE * (Math.min(seen, SURFACE_DAY_MOST_C ** 2) - this.variance);
    }
    const usual = Math.max(SURFACE_DAY_LEAST_C, Math.sqrt(this.variance));
    const slot = this.#layout.day(day);
    this.#state.set(slot, 0, unsure ? Math.max(SURFACE_DAY_BLIND_C, usual) : usual);
    return slot;
  }

  /** The shade probe fell silent in the middle of a day: what was known of that day's surface no longer holds. */
  doubt(day: number): void {
    const slot = this.#layout.day(day);
    const missing = SURFACE_DAY_BLIND_C ** 2 - this.#state.variance(slot);
    if (missing > 0) this.#state.widen(slot, Math.sqrt(missing));
  }
}
