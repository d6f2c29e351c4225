/**
 * A smooth function of the time since something began, kept at a few knots that lie closer together early on.
 */

/** Six hours, in hours: the step of the filter and the scale of the knots. */
export const STEP_h = 6;

/** Where responses are kept, hours since the step; beyond the last they are level. */
export const KNOTS_h: readonly number[] = knots([
  [12, 3],
  [48, 6],
  [96, 12],
  [15 * 24, 24],
  [60 * 24, 72],
  [190 * 24, 260],
]);

function knots(spans: readonly (readonly [until: number, every: number])[]): number[] {
  const times = [0];
  for (const [until, every] of spans)
    while ((times.at(-1) as number) + every <= until) times.push((times.at(-1) as number) + every);
  return times;
}

const scale = (hours: number): number => Math.log1p(hours / STEP_h);
const AT: readonly number[] = KNOTS_h.map(scale);

/** Slopes at the knots from a parabola through neighbours. */
function slopes(values: Float64Array): Float64Array {
  const last = values.length - 1;
  return values.map((value, index) => {
    const [x, before, after] = [AT[index] as number, Math.max(0, index - 1), Math.min(last, index + 1)];
    const left = index > 0 ? (value - (values[before] as number)) / (x - (AT[before] as number)) : Number.NaN;
    const right =
      index < last ? ((values[after] as number) - value) / ((AT[after] as number) - x) : Number.NaN;
    if (index === 0) return right;
    if (index === last) return 0;
    const [a, b] = [x - (AT[before] as number), (AT[after] as number) - x];
    return (left * b + right * a) / (a + b);
  });
}

export class Curve {
  readonly #values: Float64Array;
  readonly #slopes: Float64Array;

  /** @param values one for each of `KNOTS_h` */
  constructor(values: Float64Array) {
    this.#values = values;
    this.#slopes = slopes(values);
  }

  /** Value some hours after the beginning; 0 hours or less give the value at the beginning. */
  at(hours: number): number {
    return this.#evaluate(hours)[0];
  }

  /** Hours times the slope by hours: how the value changes when everything goes faster by a share. */
  perFaster(hours: number): number {
    const [, slope] = this.#evaluate(hours);
    return hours > 0 ? (slope * hours) / (hours + STEP_h) : 0;
  }

  #evaluate(hours: number): [value: number, slope: number] {
    const values = this.#values;
    const last = values.length - 1;
    const x = hours > 0 ? scale(hours) : 0;
    if (x >= (AT[last] as number)) return [values[last] as number, 0];
    let index = 1;
    while ((AT[index] as number) < x) index += 1;
    const [from, to] = [AT[index - 1] as number, AT[index] as number];
    const length = to - from;
    const t = (x - from) / length;
    const [p, q] = [values[index - 1] as number, values[index] as number];
    const [m, n] = [(this.#slopes[index - 1] as number) * length, (this.#slopes[index] as number) * length];
    const value =
      p * (1 + 2 * t) * (1 - t) ** 2 + m * t * (1 - t) ** 2 + q * t * t * (3 - 2 * t) + n * t * t * (t - 1);
    const slope =
      (p * 6 * t * (t - 1) + m * (1 - t) * (1 - 3 * t) + q * 6 * t * (1 - t) + n * t * (3 * t - 2)) / length;
    return [value, slope];
  }
}

/** Mean of a curve over a step of `STEP_h`, counted from 0. */
export function stepMean(at: (hours: number) => number, step: number): number {
  if (step < 0) return 0;
  const from = step * STEP_h;
  return (at(from) + 4 * at(from + STEP_h / 2) + at(from + STEP_h)) / 6;
}
