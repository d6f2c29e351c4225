/** Likelihood ratios read from the bank: of a source at a place, and of a fault of a probe. */
import { FAULTS, type Fault, type Onset, SIGNALS } from './bank.js';
import type { Point } from './responses.js';
import { type Place3, SHAPES } from './sources.js';

/** Power of a source, W, before it is looked for: mean and deviation. Judgement: a rotting cluster gives 1 to 5 W. */
export const POWER = { mean: 2.5, deviation: 2 } as const;

/** Along each axis, how far a probe is from where it is said to be, cm. Judgement. */
const PLACED_cm = 3;
/** What a source adds falls to a third over so many centimetres beyond its fall with distance. Computed for dry sand. */
const FADES_cm = 18;
/** How far the shapes may be off, as a share. Judgement. */
const SHAPE_SHARE = 0.12;

/** Probes that a place can be told by: where it adds at least this share of what it adds at the nearest. */
const NOTICEABLE = 0.04;

/** Deviation of a drift, °C a day, and of a step, °C, before they are looked for. Judgement. */
const FAULT_SIZE: Readonly<Record<Fault, number>> = { drift: 0.07, shift: 0.3 };

/** A place's weights on the bank's signals, by probe. */
export interface Reading {
  readonly place: Place3;
  readonly probes: Int32Array;
  /** Share by which what it adds at a probe is uncertain. */
  readonly uncertain: Float64Array;
  /** Weights on the shapes, probe by probe. */
  readonly weights: Float64Array;
  /** What it adds at each of the probes after some days, °C for each W. */
  readonly sizes: Float64Array;
  /** Probe at which it adds most. */
  readonly nearest: number;
}

/**
 * @param late by shape: what it has grown to after some days, °C
 */
export function readingOf(place: Place3, points: readonly Point[], late: readonly number[]): Reading {
  const size = (probe: number): number => {
    let sum = 0;
    for (let shape = 0; shape < SHAPES; shape += 1)
      sum += (place.weights[probe * SHAPES + shape] as number) * (late[shape] as number);
    return Math.abs(sum);
  };
  const sizes = points.map((_, probe) => size(probe));
  const largest = Math.max(...sizes);
  const probes = points
    .map((_, probe) => probe)
    .filter((probe) => (sizes[probe] as number) >= NOTICEABLE * largest);
  const uncertain = probes.map((probe) => {
    const point = points[probe] as Point;
    const distance = Math.max(8, Math.hypot(point.x - place.x, point.y - place.y, point.depth - place.depth));
    return Math.hypot(PLACED_cm * (1 / distance + 1 / FADES_cm), SHAPE_SHARE);
  });
  return {
    place,
    probes: Int32Array.from(probes),
    uncertain: Float64Array.from(uncertain),
    weights: Float64Array.from(
      probes.flatMap((probe) => [...place.weights.slice(probe * SHAPES, (probe + 1) * SHAPES)]),
    ),
    sizes: Float64Array.from(probes, (probe) => sizes[probe] as number),
    nearest: sizes.indexOf(largest),
  };
}

/** A source at a place, weighed. */
export interface Weighed {
  /** Logarithm of the likelihood ratio against no source. */
  readonly ratio: number;
  /** W. */
  readonly power: number;
  readonly variance: number;
}

/** Sum over the four shapes, written out: it is asked for with every pair of probes of every place. */
const overShapes = (weights: Float64Array, at: number, values: Float32Array, from: number): number =>
  (weights[at] as number) * (values[from] as number) +
  (weights[at + 1] as number) * (values[from + 1] as number) +
  (weights[at + 2] as number) * (values[from + 2] as number) +
  (weights[at + 3] as number) * (values[from + 3] as number);

/** Ratios below this are not looked at twice. */
const WORTH = 2;

const NOTHING: Weighed = { ratio: 0, power: 0, variance: POWER.deviation ** 2 };

/** Weighs sources; keeps its working arrays so that nothing is made anew for each of very many. */
export class Scales {
  readonly #found: Float64Array;
  readonly #information: Float64Array;
  readonly #factor: Float64Array;
  readonly #u: Float64Array;
  readonly #v: Float64Array;

  constructor(probes: number) {
    const most = probes * SHAPES;
    this.#found = new Float64Array(most);
    this.#information = new Float64Array(most * most);
    this.#factor = new Float64Array(most * most);
    this.#u = new Float64Array(most);
    this.#v = new Float64Array(most);
  }

  /** No source at any place that began then has a larger ratio than this. */
  bound({ gram, evidence }: Onset, probes: number): number {
    const count = evidence.length;
    const m = probes * SHAPES;
    const at = (a: number): number => Math.floor(a / SHAPES) * SIGNALS + (a % SHAPES);
    for (let a = 0; a < m; a += 1) {
      this.#u[a] = evidence[at(a)] as number;
      const row = at(a) * count;
      for (let b = 0; b < a; b += 1) this.#information[a * m + b] = gram[row + at(b)] as number;
      this.#information[a * m + a] = (gram[row + at(a)] as number) * 1.0001 + 1e-9;
    }
    if (!this.#factorize(this.#information, m)) return Number.POSITIVE_INFINITY;
    this.#solve(this.#u, m);
    let sum = 0;
    for (let a = 0; a < m; a += 1) sum += (this.#u[a] as number) ** 2;
    return sum / 2;
  }

  /**
   * Weighs a source at a place: its power is not known (normal about `POWER`), and at each probe it adds more or
   * less than at the point where the probe is said to be.
   *
   * @param sign -1 for the control: a source that cools
   */
  weigh({ probes, uncertain, weights }: Reading, { gram, evidence }: Onset, sign: 1 | -1 = 1): Weighed {
    const count = evidence.length;
    const m = probes.length;
    const found = this.#found;
    const information = this.#information;
    let all = 0;
    for (let a = 0; a < m; a += 1) {
      const first = (probes[a] as number) * SIGNALS;
      found[a] = sign * overShapes(weights, a * SHAPES, evidence, first);
      all += found[a] as number;
    }
    if (!(all > 0)) return NOTHING;
    for (let a = 0; a < m; a += 1) {
      const first = (probes[a] as number) * SIGNALS;
      for (let b = 0; b <= a; b += 1) {
        const second = (probes[b] as number) * SIGNALS;
        let total = 0;
        for (let s = 0; s < SHAPES; s += 1) {
          const row = (first + s) * count + second;
          total += (weights[a * SHAPES + s] as number) * overShapes(weights, b * SHAPES, gram, row);
        }
        information[a * m + b] = total;
        information[b * m + a] = total;
      }
    }
    // The probes' own shares scale with the power: a first guess of it, then once more with what it gave.
    const first = this.#marginal(m, uncertain, POWER.mean);
    if (first.ratio < WORTH) return first;
    return this.#marginal(m, uncertain, Math.min(8, Math.max(0.5, first.power)));
  }

  /**
   * Ratio with the power P and each probe's own share integrated out: what is found is normal with mean M (P + shares),
   * covariance M, and the shares are normal with deviation `uncertain` times the size.
   */
  #marginal(m: number, uncertain: Float64Array, size: number): Weighed {
    const information = this.#information;
    const factor = this.#factor;
    let logarithm = 0;
    for (let a = 0; a < m; a += 1) {
      const spread = ((uncertain[a] as number) * size) ** 2;
      for (let b = 0; b <= a; b += 1) {
        let sum = information[a * m + b] as number;
        if (a === b) sum += 1 / spread;
        for (let k = 0; k < b; k += 1) sum -= (factor[a * m + k] as number) * (factor[b * m + k] as number);
        if (a !== b) factor[a * m + b] = sum / (factor[b * m + b] as number);
        else if (sum > 0) factor[a * m + a] = Math.sqrt(sum);
        else return NOTHING;
      }
      logarithm += Math.log(spread * (factor[a * m + a] as number) ** 2);
    }
    let gain = 0;
    let info = 0;
    let rest = 0;
    for (let a = 0; a < m; a += 1) {
      let u = this.#found[a] as number;
      let v = 0;
      for (let b = 0; b < m; b += 1) v += information[a * m + b] as number;
      gain += u;
      info += v;
      for (let k = 0; k < a; k += 1) {
        u -= (factor[a * m + k] as number) * (this.#u[k] as number);
        v -= (factor[a * m + k] as number) * (this.#v[k] as number);
      }
      u /= factor[a * m + a] as number;
      v /= factor[a * m + a] as number;
      this.#u[a] = u;
      this.#v[a] = v;
      gain -= u * v;
      info -= v * v;
      rest += u * u;
    }
    const precision = 1 / POWER.deviation ** 2;
    const variance = 1 / (info + precision);
    const power = (gain + POWER.mean * precision) * variance;
    const ratio =
      0.5 *
      (rest -
        logarithm +
        power * power * (info + precision) -
        POWER.mean ** 2 * precision +
        Math.log(precision * variance));
    return { ratio, power, variance };
  }

  #factorize(matrix: Float64Array, m: number): boolean {
    const factor = this.#factor;
    for (let a = 0; a < m; a += 1)
      for (let b = 0; b <= a; b += 1) {
        let sum = matrix[a * m + b] as number;
        for (let k = 0; k < b; k += 1) sum -= (factor[a * m + k] as number) * (factor[b * m + k] as number);
        if (a !== b) factor[a * m + b] = sum / (factor[b * m + b] as number);
        else if (sum > 0) factor[a * m + a] = Math.sqrt(sum);
        else return false;
      }
    return true;
  }

  #solve(right: Float64Array, m: number): void {
    for (let a = 0; a < m; a += 1) {
      let sum = right[a] as number;
      for (let k = 0; k < a; k += 1) sum -= (this.#factor[a * m + k] as number) * (right[k] as number);
      right[a] = sum / (this.#factor[a * m + a] as number);
    }
  }
}

/** A fault of one probe, weighed. */
export interface WeighedFault {
  readonly fault: Fault;
  readonly probe: number;
  readonly ratio: number;
  /** °C a day of a drift, °C of a step. */
  readonly size: number;
}

/** Ratios of the faults of a probe that began at an onset, their size integrated out. */
export function weighFaults({ gram, evidence }: Onset, probe: number): WeighedFault[] {
  const count = evidence.length;
  return FAULTS.map((fault, index) => {
    const signal = probe * SIGNALS + SHAPES + index;
    const precision = 1 / FAULT_SIZE[fault] ** 2;
    const information = gram[signal * count + signal] as number;
    const found = evidence[signal] as number;
    const variance = 1 / (information + precision);
    return {
      fault,
      probe,
      ratio: 0.5 * (found * found * variance + Math.log(precision * variance)),
      size: found * variance,
    };
  });
}
