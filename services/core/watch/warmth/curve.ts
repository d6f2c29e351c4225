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

/** Shares of the two knots around a time in what a curve is there: of their values and of their slopes. */
export interface Mix {
  /** The later of the two. */
  readonly knot: number;
  readonly values: readonly [before: number, after: number];
  readonly slopes: readonly [before: number, after: number];
}

/** A time among the knots: the same for all curves. */
export interface Spot {
  readonly value: Mix;
  /** Hours times the slope by hours: how the value changes when everything goes faster by a share. */
  readonly faster: Mix;
}

const LAST = KNOTS_h.length - 1;
const LEVEL: Spot = {
  value: { knot: LAST, values: [0, 1], slopes: [0, 0] },
  faster: { knot: LAST, values: [0, 0], slopes: [0, 0] },
};

/** Some hours after the beginning; 0 hours or less are the beginning. Cubic between knots, by values and slopes. */
export function spotAt(hours: number): Spot {
  const x = hours > 0 ? scale(hours) : 0;
  if (x >= (AT[LAST] as number)) return LEVEL;
  const knot = knotAfter(x);
  const from = AT[knot - 1] as number;
  const length = (AT[knot] as number) - from;
  const t = (x - from) / length;
  const u = 1 - t;
  const perScale = hours > 0 ? hours / (hours + STEP_h) : 0;
  const bend = (perScale * 6 * t * u) / length;
  return {
    value: {
      knot,
      values: [(1 + 2 * t) * u * u, t * t * (3 - 2 * t)],
      slopes: [t * u * u * length, -t * t * u * length],
    },
    faster: {
      knot,
      values: [-bend, bend],
      slopes: [perScale * u * (1 - 3 * t), perScale * t * (3 * t - 2)],
    },
  };
}

/** The first knot that is not before x, from the second on. */
function knotAfter(x: number): number {
  let low = 1;
  let high = LAST;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((AT[middle] as number) < x) low = middle + 1;
    else high = middle;
  }
  return low;
}

export class Curve {
  readonly #values: Float64Array;
  readonly #slopes: Float64Array;

  /** @param values one for each of `KNOTS_h` */
  constructor(values: Float64Array) {
    this.#values = values;
    this.#slopes = slopes(values);
  }

  mixed({ knot, values, slopes }: Mix): number {
    return (
      values[0] * (this.#values[knot - 1] as number) +
      values[1] * (this.#values[knot] as number) +
      slopes[0] * (this.#slopes[knot - 1] as number) +
      slopes[1] * (this.#slopes[knot] as number)
    );
  }

  /** Value some hours after the beginning; 0 hours or less give the value at the beginning. */
  at(hours: number): number {
    return this.mixed(spotAt(hours).value);
  }

  /** Hours times the slope by hours: how the value changes when everything goes faster by a share. */
  perFaster(hours: number): number {
    return this.mixed(spotAt(hours).faster);
  }
}

/** Mean of a curve over a step of `STEP_h`, counted from 0. */
export function stepMean(at: (hours: number) => number, step: number): number {
  if (step < 0) return 0;
  const from = step * STEP_h;
  return (at(from) + 4 * at(from + STEP_h / 2) + at(from + STEP_h)) / 6;
}
