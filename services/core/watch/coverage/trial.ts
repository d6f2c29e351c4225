/** A source that began some days ago, as the watch would weigh it on average: its own scales on its own evidence. */
import { Onset, SIGNALS, spacingAt } from '../warmth/bank.js';
import { type Reading, type Scales, type WeighedFault, weighFaults } from '../warmth/search.js';
import { type Place3, SHAPES } from '../warmth/sources.js';
import { type Candidate, withoutProbe } from '../warmth/weighing.js';
import { beginningsAt, ONSET_step } from './ages.js';
import { type Carried, products } from './carried.js';

/** Beginnings so many steps from the true one count for a source; others are too unlike it. */
const NEAR_steps = 8;

export interface TrialInput {
  readonly scales: Scales;
  readonly probes: number;
  /** All places at which the watch looks for a source. */
  readonly spread: readonly Reading[];
  readonly carriedAt: (onset: number) => Carried;
  /** The last step that counts. */
  readonly last: number;
  /** What evidence is divided by: how much the probes scatter. */
  readonly scatter: number;
}

export interface Tried {
  /** Logarithm of the Shiryaev-Roberts statistic; of its part of the true beginning alone. */
  readonly source: number;
  readonly middle: number;
  readonly best: Candidate | undefined;
  readonly fault: WeighedFault | undefined;
  /** Ratio of the best source without the probe that it is nearest to. */
  readonly others: number;
  /** By probe: its part of the information on the source, in units of the innovations' variance. */
  readonly information: Float64Array;
}

interface Looked {
  readonly onset: Onset;
  /** Products of its signals with those of the true beginning. */
  readonly cross: Float64Array;
}

export class Trial {
  readonly #input: TrialInput;
  readonly #all: readonly Looked[];
  readonly #near: readonly Onset[];
  readonly #middle: readonly Onset[];
  readonly #own: Float64Array;

  constructor(input: TrialInput) {
    this.#input = input;
    const { probes, carriedAt, last, scatter } = input;
    const truth = carriedAt(ONSET_step);
    const weighed = (one: Carried, other: Carried): Float64Array =>
      products(one, other, last, probes).map((value) => value / scatter);
    this.#own = weighed(truth, truth);
    this.#all = beginningsAt(last).map((step) => {
      const carried = carriedAt(step);
      const onset = new Onset(step, probes * SIGNALS, 0);
      onset.gram.set(weighed(carried, carried));
      return { onset, cross: weighed(carried, truth) };
    });
    const onsets = this.#all.map(({ onset }) => onset);
    const closest = Math.max(onsets[0]?.step ?? ONSET_step, ONSET_step);
    const within = (steps: number): Onset[] => onsets.filter(({ step }) => Math.abs(step - closest) <= steps);
    this.#near = within(NEAR_steps);
    this.#middle = within(0);
  }

  /**
   * Puts a source into the evidence, and weighs it.
   *
   * @param around places of the spread that are like it
   */
  of({ weights }: Place3, power_W: number, around: readonly Reading[]): Tried {
    const { scales } = this.#input;
    const signals = signalsOf(weights, power_W, this.#input.probes);
    for (const { onset, cross } of this.#all) onset.evidence.set(times(cross, signals));
    const { sum: source, best } = this.#sum(this.#near, around, 1);
    const fault = this.#worstFault();
    return {
      ...{ source, best, fault, middle: this.#sum(this.#middle, around, 1).sum },
      others: best ? withoutProbe(best, best.reading.nearest, scales) : 0,
      information: this.#information(signals),
    };
  }

  /** Of the evidence as it stands: the statistic for sources that cool, of the true beginning alone. */
  mirror(): number {
    return this.#sum(this.#middle, this.#input.spread, -1).sum;
  }

  #sum(
    onsets: readonly Onset[],
    readings: readonly Reading[],
    sign: 1 | -1,
  ): { sum: number; best?: Candidate } {
    const { scales, last, spread } = this.#input;
    const terms: number[] = [];
    let best: Candidate | undefined;
    for (const onset of onsets)
      for (const reading of readings) {
        const weighed = scales.weigh(reading, onset, sign);
        if (!(weighed.power > LEAST_W)) continue;
        terms.push(weighed.ratio + Math.log(spacingAt(last - onset.step) / spread.length));
        if (!best || weighed.ratio > best.ratio) best = { ...weighed, onset, reading };
      }
    return { sum: logarithmOfSum(terms), ...(best && { best }) };
  }

  /** The fault that explains best, whenever it began. */
  #worstFault(): WeighedFault | undefined {
    const { probes } = this.#input;
    let worst: WeighedFault | undefined;
    for (const { onset } of this.#all)
      for (let probe = 0; probe < probes; probe += 1)
        for (const fault of weighFaults(onset, probe)) if (!worst || fault.ratio > worst.ratio) worst = fault;
    return worst;
  }

  #information(signals: Float64Array): Float64Array {
    const found = times(this.#own, signals);
    return Float64Array.from({ length: this.#input.probes }, (_, probe) => {
      let sum = 0;
      for (let at = probe * SIGNALS; at < probe * SIGNALS + SHAPES; at += 1)
        sum += (signals[at] as number) * (found[at] as number);
      return sum;
    });
  }
}

/** A source weaker than this is none, W: as in `weighing.ts`. */
const LEAST_W = 0.2;

/** Without a bound, unlike the watch's own: there all that is certain is alike. */
function logarithmOfSum(terms: readonly number[]): number {
  const most = terms.reduce((one, other) => Math.max(one, other), Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - most), 0));
}

/** A source as a sum of the bank's signals. */
function signalsOf(weights: Float64Array, power_W: number, probes: number): Float64Array {
  const signals = new Float64Array(probes * SIGNALS);
  for (let probe = 0; probe < probes; probe += 1)
    for (let shape = 0; shape < SHAPES; shape += 1)
      signals[probe * SIGNALS + shape] = power_W * (weights[probe * SHAPES + shape] as number);
  return signals;
}

function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const count = vector.length;
  return vector.map((_, row) => {
    let sum = 0;
    for (let column = 0; column < count; column += 1)
      sum += (matrix[row * count + column] as number) * (vector[column] as number);
    return sum;
  });
}
