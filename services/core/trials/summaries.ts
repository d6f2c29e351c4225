import { median } from 'simple-statistics';
import { LEVEL, type TreatmentSummary } from './comparison.js';
import { studentFactor } from './distributions.js';
import { momentsOf, varianceOf } from './moments.js';
import type { Group } from './per-bed.js';

/** Each treatment by itself, with the interval of its mean from the spread between its own beds. */
export const summariesOf = (groups: readonly Group[]): TreatmentSummary[] => groups.map(summaryOf);

export function summaryOf({ treatment, values }: Group): TreatmentSummary {
  const moments = momentsOf(values);
  const { n, mean } = moments;
  const common = { treatment, beds: n, mean, median: median([...values]) };
  if (n < 2) return { ...common, sd: null, interval: null };
  const sd = Math.sqrt(varianceOf(moments));
  const half = (studentFactor(LEVEL, n - 1) * sd) / Math.sqrt(n);
  return { ...common, sd, interval: { low: mean - half, high: mean + half } };
}
