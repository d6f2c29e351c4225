/** What is left of signals once the filter has taken them for what it knows: whitened innovations, step by step. */
import type { Bank } from '../warmth/bank.js';
import { SIGNALS } from '../warmth/bank.js';
import type { Gain } from '../warmth/kalman.js';
import { Passing, TOGETHER } from '../warmth/passing.js';

/** All signals that begin at one step, by signal: innovations of its steps one after the other, probe by probe. */
export interface Carried {
  readonly onset: number;
  readonly left: readonly Float64Array[];
}

/**
 * Sends every signal through the steps from its onset on, as `Bank` does for its sums of evidence.
 *
 * @param gains by step, from step 0
 * @param size of the filter's state
 */
export function carry(bank: Bank, gains: readonly Gain[], onset: number, size: number): Carried {
  const m = bank.probes;
  const left = Array.from({ length: bank.signals }, () => new Float64Array((gains.length - onset) * m));
  const states = { parts: new Int16Array(bank.signals * size), scales: new Float32Array(bank.signals) };
  const passing = new Passing(size);
  const inStep = new Float64Array(bank.signals * m);
  for (let step = onset; step < gains.length; step += 1) {
    const sizes = Float64Array.from({ length: SIGNALS }, (_, kind) => bank.signal(kind, step - onset));
    for (let first = 0; first < bank.signals; first += TOGETHER) {
      const [own, kind] = [Math.floor(first / SIGNALS), first % SIGNALS];
      passing.send(states, first, gains[step] as Gain, own, sizes.subarray(kind, kind + TOGETHER), inStep);
    }
    left.forEach((all, signal) => {
      all.set(inStep.subarray(signal * m, (signal + 1) * m), (step - onset) * m);
    });
  }
  return { onset, left };
}

/**
 * Inner products of what is left of one set of signals with what is left of another, up to a step.
 *
 * @param last step that counts
 * @returns row by row: `one`'s signals by `other`'s
 */
export function products(one: Carried, other: Carried, last: number, probes: number): Float64Array {
  const count = one.left.length;
  const from = Math.max(one.onset, other.onset);
  const length = Math.max(0, last + 1 - from) * probes;
  const [skipOne, skipOther] = [(from - one.onset) * probes, (from - other.onset) * probes];
  const sums = new Float64Array(count * count);
  // With itself the products are the same either way round.
  const isSame = one === other;
  for (let a = 0; a < count; a += 1)
    for (let b = isSame ? a : 0; b < count; b += 1) {
      const [left, right] = [one.left[a] as Float64Array, other.left[b] as Float64Array];
      let sum = 0;
      for (let i = 0; i < length; i += 1)
        sum += (left[skipOne + i] as number) * (right[skipOther + i] as number);
      sums[a * count + b] = sum;
      if (isSame) sums[b * count + a] = sum;
    }
  return sums;
}
