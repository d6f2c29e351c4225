/**
 * A treatment's course over time: the mean of its beds at each time, with the interval that the beds leave at that time alone
 * (pointwise). Each bed counts once at a time, however often it was measured.
 */
import { LEVEL } from './comparison.js';
import { studentFactor } from './distributions.js';
import { momentsOf, varianceOf } from './moments.js';

export interface BedCurve {
  readonly bed: string;
  readonly treatment: string;
  /** One value a time, in any order. */
  readonly points: readonly { readonly time: number; readonly value: number }[];
}

export interface CurvePoint {
  readonly time: number;
  readonly beds: number;
  readonly mean: number;
  /** Null at a time with fewer than two beds. */
  readonly low: number | null;
  readonly high: number | null;
}

export interface SummaryCurve {
  readonly treatment: string;
  readonly points: readonly CurvePoint[];
}

/** By treatment, in the order in which treatments first come; times in order. */
export function summaryCurves(curves: readonly BedCurve[]): SummaryCurve[] {
  const treatments = [...new Set(curves.map(({ treatment }) => treatment))];
  return treatments.map((treatment) => {
    const byTime = new Map<number, Map<string, number>>();
    for (const { bed, points } of curves.filter((curve) => curve.treatment === treatment))
      for (const { time, value } of points) {
        const there = byTime.get(time) ?? new Map<string, number>();
        byTime.set(time, there.set(bed, value));
      }
    const times = [...byTime.keys()].sort((one, other) => one - other);
    return { treatment, points: times.map((time) => pointOf(time, [...(byTime.get(time)?.values() ?? [])])) };
  });
}

function pointOf(time: number, values: readonly number[]): CurvePoint {
  const moments = momentsOf(values);
  const { n, mean } = moments;
  if (n < 2) return { time, beds: n, mean, low: null, high: null };
  const half = studentFactor(LEVEL, n - 1) * Math.sqrt(varianceOf(moments) / n);
  return { time, beds: n, mean, low: mean - half, high: mean + half };
}
