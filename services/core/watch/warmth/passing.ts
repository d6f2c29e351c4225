/**
 * Signals sent through a step of the filter as the readings went through it: what it would have made of each, and
 * what would have been left for it to wonder at.
 *
 * Three signals go at a time, so that each number of the step is fetched once for three of them: this is where most
 * of the watch's time goes.
 */
import type { Gain, Stretches } from './kalman.js';

/** Signals that go at a time. */
export const TOGETHER = 3;

/** Whole parts of a state's largest number that are kept: more say nothing, and what rests must be small. */
export const PARTS = 32_767;
/** Scales below are nothing. */
const LEAST = 1e-30;
/** Added before the rest is cut off, taken off after: rounds to the nearest, below zero too. */
const ROUNDING = PARTS + 1.5;

/** What the filter would have made of each signal: states one after the other, in parts of the signal's scale. */
export interface States {
  readonly parts: Int16Array;
  readonly scales: Float32Array;
}

export class Passing {
  readonly #size: number;
  /** The three states, the same unknown of each beside each other. */
  readonly #state: Float64Array;

  /** @param size of the filter's state */
  constructor(size: number) {
    this.#size = size;
    this.#state = new Float64Array(size * TOGETHER);
  }

  /**
   * Sends three signals, one after the other in the states, through a step.
   *
   * @param own row of the probe that the signals are at, -1 where it did not measure
   * @param sizes what each adds there
   * @param left by signal and row: their whitened innovations are put there
   */
  send(
    { parts, scales }: States,
    first: number,
    gain: Gain,
    own: number,
    sizes: Float64Array,
    left: Float64Array,
  ): void {
    this.#unpack(parts, scales, first);
    this.#whiten(gain, own, sizes, left, first * gain.rows.length);
    this.#learn(gain.columns, left, first * gain.rows.length);
    this.#measure(scales, first);
    this.#pack(parts, scales, first);
  }

  #unpack(parts: Int16Array, scales: Float32Array, first: number): void {
    const state = this.#state;
    for (let one = 0; one < TOGETHER; one += 1) {
      const by = (scales[first + one] as number) / PARTS;
      const from = (first + one) * this.#size;
      for (let i = 0; i < this.#size; i += 1) state[i * TOGETHER + one] = by * (parts[from + i] as number);
    }
  }

  /** L^-1 of what each signal adds, less what the filter expects of it already. */
  #whiten(
    { rows, stretches, factor }: Gain,
    own: number,
    sizes: Float64Array,
    left: Float64Array,
    at: number,
  ): void {
    const m = rows.length;
    const state = this.#state;
    const [atA, atB, atC] = [at, at + m, at + 2 * m];
    for (let j = 0; j < m; j += 1) {
      const row = rows[j] as Float64Array;
      const bounds = stretches[j] as Stretches;
      let a = j === own ? (sizes[0] as number) : 0;
      let b = j === own ? (sizes[1] as number) : 0;
      let c = j === own ? (sizes[2] as number) : 0;
      for (let s = 0; s < bounds.length; s += 2) {
        const end = bounds[s + 1] as number;
        for (let i = bounds[s] as number; i < end; i += 1) {
          const weight = row[i] as number;
          const there = i * TOGETHER;
          a -= weight * (state[there] as number);
          b -= weight * (state[there + 1] as number);
          c -= weight * (state[there + 2] as number);
        }
      }
      for (let k = 0; k < j; k += 1) {
        const weight = factor[j * m + k] as number;
        a -= weight * (left[atA + k] as number);
        b -= weight * (left[atB + k] as number);
        c -= weight * (left[atC + k] as number);
      }
      const diagonal = factor[j * m + j] as number;
      left[atA + j] = a / diagonal;
      left[atB + j] = b / diagonal;
      left[atC + j] = c / diagonal;
    }
  }

  /** Takes over what the filter would have learned from what was left. */
  #learn(columns: readonly Float64Array[], left: Float64Array, at: number): void {
    const state = this.#state;
    const m = columns.length;
    for (let j = 0; j < m; j += 1) {
      const column = columns[j] as Float64Array;
      const a = left[at + j] as number;
      const b = left[at + m + j] as number;
      const c = left[at + 2 * m + j] as number;
      for (let i = 0; i < this.#size; i += 1) {
        const weight = column[i] as number;
        const there = i * TOGETHER;
        state[there] = (state[there] as number) + weight * a;
        state[there + 1] = (state[there + 1] as number) + weight * b;
        state[there + 2] = (state[there + 2] as number) + weight * c;
      }
    }
  }

  /** The largest number of each state is its scale. */
  #measure(scales: Float32Array, first: number): void {
    const state = this.#state;
    for (let one = 0; one < TOGETHER; one += 1) {
      let largest = 0;
      for (let i = one; i < state.length; i += TOGETHER) {
        const size = Math.abs(state[i] as number);
        if (size > largest) largest = size;
      }
      scales[first + one] = largest;
    }
  }

  #pack(parts: Int16Array, scales: Float32Array, first: number): void {
    const state = this.#state;
    for (let one = 0; one < TOGETHER; one += 1) {
      const scale = scales[first + one] as number;
      const into = scale > LEAST ? PARTS / scale : 0;
      const from = (first + one) * this.#size;
      for (let i = 0; i < this.#size; i += 1)
        parts[from + i] = Math.trunc((state[i * TOGETHER + one] as number) * into + ROUNDING) - (PARTS + 1);
    }
  }
}
