/**
 * The arithmetic of the watch's filter and nothing else, as plain matrices: in each step of six hours the covariance of
 * a bed's unknowns is updated by what its probes measured, and every signal that is kept for every beginning goes
 * through the same step.
 */
import { SIGNALS } from '../../services/core/watch/warmth/bank.js';
import { Layout } from '../../services/core/watch/warmth/layout.js';

/** Beginnings that the watch keeps at a time, about. */
const BEGINNINGS = 18;

export class BareFilter {
  readonly #size: number;
  /** What each probe shows of each unknown: any numbers do, as long as they differ. */
  readonly #rows: readonly Float64Array[];
  readonly #covariance: Float64Array;
  /** Of all signals, one after the other. */
  readonly #states: Float64Array;

  constructor(probes: number) {
    const size = new Layout(probes).size;
    this.#size = size;
    this.#rows = Array.from({ length: probes }, (_, probe) =>
      Float64Array.from({ length: size }, (_, at) => Math.cos(1 + probe + 7 * at) / 10),
    );
    this.#covariance = Float64Array.from({ length: size * size }, (_, at) => (at % (size + 1) === 0 ? 1 : 0));
    this.#states = new Float64Array(BEGINNINGS * probes * SIGNALS * size);
  }

  /** Takes one probe after the other, each with a variance of one. */
  step(): void {
    for (const row of this.#rows) {
      const gain = this.#update(row);
      for (let from = 0; from < this.#states.length; from += this.#size) this.#send(from, row, gain);
    }
  }

  #update(row: Float64Array): Float64Array {
    const [P, size] = [this.#covariance, this.#size];
    const gain = row.map((_, i) => dot(P, i * size, row));
    const variance = 1 + dot(gain, 0, row);
    for (let i = 0; i < size; i += 1)
      for (let k = 0; k < size; k += 1) {
        const at = i * size + k;
        P[at] = (P[at] as number) - ((gain[i] as number) * (gain[k] as number)) / variance;
      }
    return gain.map((value) => value / variance);
  }

  #send(from: number, row: Float64Array, gain: Float64Array): void {
    const states = this.#states;
    const left = 1 - dot(states, from, row);
    for (let i = 0; i < row.length; i += 1)
      states[from + i] = (states[from + i] as number) + left * (gain[i] as number);
  }

  /** @throws Error where the unknowns are not better known than before, or a signal went astray */
  check(): void {
    const size = this.#size;
    const trace = this.#covariance.reduce((sum, entry, at) => sum + (at % (size + 1) === 0 ? entry : 0), 0);
    if (!(trace > 0 && trace < size && this.#states.every(Number.isFinite)))
      throw new Error(`bare filter: expected a covariance and finite states, got a trace of ${trace}`);
  }
}

function dot(all: Float64Array, from: number, row: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < row.length; i += 1) sum += (all[from + i] as number) * (row[i] as number);
  return sum;
}
