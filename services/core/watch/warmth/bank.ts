/**
 * Evidence for heat that began at some time somewhere in a bed, gathered as the filter goes on.
 *
 * What a source would have added is sent through the same filter as the readings: what the filter would have
 * learned away of it is thereby accounted for. The filter is linear, so it is done for a few shapes at each probe
 * and each time of beginning; any place is a sum of these (see `sources.ts`).
 */
import type { Gain } from './kalman.js';
import { PARTS, Passing, type States, TOGETHER } from './passing.js';
import { SHAPES } from './sources.js';

/** Beside the shapes of a source, two faults of a probe: a drift of 1 °C a day, and a step of 1 °C. */
export const FAULTS = ['drift', 'shift'] as const;
export type Fault = (typeof FAULTS)[number];
export const SIGNALS = SHAPES + FAULTS.length;

const STEPS_A_DAY = 4;

/**
 * Beginnings that are looked at: half days at first, then days, then two days; older ones are dropped. Steps.
 * A drift may take three weeks to be told.
 */
const KEPT = [
  { until: 2 * STEPS_A_DAY, every: 2 },
  { until: 7 * STEPS_A_DAY, every: 4 },
  { until: 21.5 * STEPS_A_DAY, every: 8 },
] as const;

/** All that might have begun at one step. */
export class Onset implements States {
  /** First step in which it acts. */
  readonly step: number;
  /** How much the bed's probes scattered just before. */
  readonly scatter: number;
  readonly parts: Int16Array;
  readonly scales: Float32Array;
  /** Inner products of the whitened signals, symmetric: of sources' shapes with each other, of faults with themselves. */
  readonly gram: Float32Array;
  /** Inner products with the whitened innovations. */
  readonly evidence: Float32Array;

  constructor(step: number, signals: number, size: number, scatter = 0) {
    this.step = step;
    this.scatter = scatter;
    this.parts = new Int16Array(signals * size);
    this.scales = new Float32Array(signals);
    this.gram = new Float32Array(signals * signals);
    this.evidence = new Float32Array(signals);
  }
}

/** A source of some power, by its beginning and its weights on the signals of probes. */
export interface LikelySource {
  readonly onset: Onset;
  readonly reading: { readonly probes: Int32Array; readonly weights: Float64Array };
  readonly power: number;
}

export class Bank {
  readonly #shapes: readonly Float64Array[];
  readonly probes: number;
  readonly size: number;
  readonly #passing: Passing;
  /** Which inner products are asked for, as places in the full array, in order. */
  readonly products: Int32Array;
  onsets: Onset[] = [];

  /** @param size of the filter's state */
  constructor(shapes: readonly Float64Array[], probes: number, size: number) {
    this.#shapes = shapes;
    this.probes = probes;
    this.size = size;
    this.#passing = new Passing(size);
    this.products = keptProducts(this.signals);
  }

  get signals(): number {
    return this.probes * SIGNALS;
  }

  /**
   * Lets go of beginnings that are too old or too close to others, and begins anew where one is due.
   *
   * @param pinned beginnings that are kept however old they become
   * @param scatter of the bed's probes now
   */
  turn(step: number, pinned: readonly number[] = [], scatter = 0): void {
    this.onsets = this.onsets.filter((onset) => pinned.includes(onset.step) || isKept(onset.step, step));
    if (step % KEPT[0].every === 0) this.onsets.push(new Onset(step, this.signals, this.size, scatter));
  }

  /** What a signal adds at its own probe some steps after its onset, °C. */
  signal(signal: number, age: number): number {
    if (signal === SHAPES) return (age + 0.5) / STEPS_A_DAY;
    if (signal === SHAPES + 1) return 1;
    const shape = this.#shapes[signal] as Float64Array;
    return shape[Math.min(age, shape.length - 1)] as number;
  }

  /** A state's unknown is taken for another thing from now on: what signals left in it is forgotten. */
  forget(at: number): void {
    for (const { parts } of this.onsets)
      for (let signal = 0; signal < this.signals; signal += 1) parts[signal * this.size + at] = 0;
  }

  /** What the filter would have made of a sum of signals: added to a state, times a factor. */
  addTo(state: Float64Array, { parts, scales }: Onset, signal: number, factor: number): void {
    const by = ((scales[signal] as number) * factor) / PARTS;
    const at = signal * this.size;
    for (let i = 0; i < this.size; i += 1) state[i] = (state[i] as number) + by * (parts[at + i] as number);
  }

  /**
   * Takes a step of the filter.
   *
   * @param weights by used row: how much of its whitened innovation counts
   * @param likely a source that is likely to be there
   * @returns by used row: what that source adds to the whitened innovation
   */
  take(
    step: number,
    gain: Gain,
    used: readonly number[],
    weights: readonly number[],
    likely?: LikelySource,
  ): Float64Array {
    const m = used.length;
    const added = new Float64Array(m);
    const left = new Float64Array(this.signals * m);
    const whitened = gain.whitened.map((value, row) => value * (weights[row] as number));
    for (const onset of this.onsets) {
      this.#send(onset, step, gain, used, left);
      if (likely?.onset.step === onset.step) addUp(likely, left, added);
      for (let at = 0; at < left.length; at += 1)
        left[at] = (left[at] as number) * (weights[at % m] as number);
      this.#addEvidence(onset.evidence, left, whitened);
      this.#addProducts(onset.gram, left, used.length);
    }
    return added;
  }

  /** Sends all signals of an onset through the step; `left` becomes their whitened innovations. */
  #send(onset: Onset, step: number, gain: Gain, used: readonly number[], left: Float64Array): void {
    const sizes = Float64Array.from({ length: SIGNALS }, (_, kind) => this.signal(kind, step - onset.step));
    for (let kind = 0; kind < SIGNALS; kind += TOGETHER) {
      const own = sizes.subarray(kind, kind + TOGETHER);
      for (let probe = 0; probe < this.probes; probe += 1)
        this.#passing.send(onset, probe * SIGNALS + kind, gain, used.indexOf(probe), own, left);
    }
  }

  #addEvidence(evidence: Float32Array, left: Float64Array, whitened: Float64Array): void {
    const m = whitened.length;
    for (let signal = 0; signal < evidence.length; signal += 1) {
      let found = 0;
      for (let j = 0; j < m; j += 1) found += (left[signal * m + j] as number) * (whitened[j] as number);
      evidence[signal] = (evidence[signal] as number) + found;
    }
  }

  #addProducts(gram: Float32Array, left: Float64Array, m: number): void {
    const count = this.signals;
    for (const at of this.products) {
      const a = Math.floor(at / count);
      const b = at - a * count;
      let sum = gram[at] as number;
      for (let j = 0; j < m; j += 1) sum += (left[a * m + j] as number) * (left[b * m + j] as number);
      gram[at] = sum;
      gram[b * count + a] = sum;
    }
  }
}

/** What a source adds, as a sum of its signals. */
function addUp(
  { reading: { probes, weights }, power }: LikelySource,
  left: Float64Array,
  added: Float64Array,
): void {
  const m = added.length;
  weights.forEach((weight, at) => {
    const signal = (probes[Math.floor(at / SHAPES)] as number) * SIGNALS + (at % SHAPES);
    for (let j = 0; j < m; j += 1)
      added[j] = (added[j] as number) + power * weight * (left[signal * m + j] as number);
  });
}

/** A beginning with its inner products in the least room: of the sources' shapes among each other, of faults their own. */
export interface OnsetSaved {
  readonly step: number;
  readonly scatter: number;
  readonly parts: Int16Array;
  readonly scales: Float32Array;
  readonly gram: Float32Array;
  readonly evidence: Float32Array;
}

/** Of sources' shapes with each other, of faults with themselves. */
function keptProducts(signals: number): Int32Array {
  const kept: number[] = [];
  const isShape = (signal: number): boolean => signal % SIGNALS < SHAPES;
  for (let a = 0; a < signals; a += 1)
    for (let b = 0; b <= a; b += 1) if (a === b || (isShape(a) && isShape(b))) kept.push(a * signals + b);
  return Int32Array.from(kept);
}

export function saveOnsets(bank: Bank): OnsetSaved[] {
  return bank.onsets.map(({ step, scatter, parts, scales, gram, evidence }) => ({
    ...{ step, scatter, parts, scales, evidence },
    gram: Float32Array.from(bank.products, (at) => gram[at] as number),
  }));
}

export function restoreOnsets(bank: Bank, saved: readonly OnsetSaved[]): void {
  bank.onsets = saved.map((one) => {
    const onset = new Onset(one.step, bank.signals, bank.size, one.scatter);
    onset.parts.set(one.parts);
    onset.scales.set(one.scales);
    onset.evidence.set(one.evidence);
    bank.products.forEach((at, index) => {
      const value = one.gram[index] as number;
      const [a, b] = [Math.floor(at / bank.signals), at % bank.signals];
      onset.gram[at] = value;
      onset.gram[b * bank.signals + a] = value;
    });
    return onset;
  });
}

/** Steps from one kept beginning to the next at an age: what each stands for. */
export const spacingAt = (age: number): number =>
  (KEPT.find(({ until }) => age <= until) ?? (KEPT[KEPT.length - 1] as (typeof KEPT)[number])).every;

function isKept(begun: number, step: number): boolean {
  const age = step - begun;
  return KEPT.some(({ until, every }) => age <= until && begun % every === 0);
}
