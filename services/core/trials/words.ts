/** A comparison in plain sentences: what was found, how surely, and what it does not say. */
import type { Comparison, Difference, Interval, Test, TreatmentSummary } from './comparison.js';
import { mainTest } from './comparison.js';
import { decimalsFor, fixed, pText } from './numbers.js';

/** Below this p a difference is called one. Convention, no source. */
export const CALLED_FROM_p = 0.05;

export const degreesText = (df: readonly number[]): string =>
  df.map((each) => (Number.isInteger(each) ? String(each) : each.toFixed(2))).join(', ');

export const testText = ({ name, statistic, value, df, p }: Test): string =>
  `${name}: ${statistic}(${degreesText(df)}) = ${value.toFixed(3)}, ${pText(p)}`;

const decimalsOf = (comparison: Comparison): number => {
  const spreads = comparison.treatments.flatMap(({ sd }) => (sd === null || sd === 0 ? [] : [sd]));
  return decimalsFor(spreads.length === 0 ? Number.NaN : Math.min(...spreads));
};

export function treatmentText(summary: TreatmentSummary, decimals: number, byRanks: boolean): string {
  const { treatment, beds, mean, sd, median, interval } = summary;
  const middle = byRanks ? `median ${fixed(median, decimals)}` : `mean ${fixed(mean, decimals)}`;
  const between = interval ? ` (${fixed(interval.low, decimals)} to ${fixed(interval.high, decimals)})` : '';
  const spread = sd === null ? '' : `, standard deviation between beds ${fixed(sd, decimals)}`;
  return `${treatment}: ${beds} beds, ${middle}${between}${spread}`;
}

const gText = (g: Interval): string =>
  `; Hedges g ${g.estimate.toFixed(2)} (${g.low.toFixed(2)} to ${g.high.toFixed(2)})`;

export function differenceText({ from, to, difference, g, p }: Difference, decimals: number): string {
  const { estimate, low, high } = difference;
  return `${to} less ${from}: ${fixed(estimate, decimals)} (${fixed(low, decimals)} to ${fixed(high, decimals)})${g ? gText(g) : ''}; ${pText(p)}`;
}

export const CORRECTED = 'all pairs together';

export interface ComparisonWords {
  readonly treatments: readonly string[];
  readonly differences: readonly string[];
  readonly effects: readonly string[];
  readonly tests: readonly string[];
  readonly assumptions: readonly string[];
  /** What it means, and what it does not. */
  readonly meaning: readonly string[];
}

export function comparisonWords(comparison: Comparison): ComparisonWords {
  const decimals = decimalsOf(comparison);
  const byRanks = comparison.design === 'kruskal';
  return {
    treatments: comparison.treatments.map((each) => treatmentText(each, decimals, byRanks)),
    differences: comparison.differences.map((each) => differenceText(each, decimals)),
    effects: comparison.effects.map(({ name, value }) => `${name} ${value.toFixed(3)}`),
    tests: comparison.tests.map(testText),
    assumptions: comparison.assumptions.map(({ said }) => said),
    meaning: meaningOf(comparison, decimals),
  };
}

function meaningOf(comparison: Comparison, decimals: number): string[] {
  const { p } = mainTest(comparison);
  const found = comparison.differences.filter((each) => each.p < CALLED_FROM_p);
  const widest = largest(comparison.differences);
  if (widest === undefined) return [];
  if (!(p < CALLED_FROM_p)) return [notFound(widest, p, decimals), NOT_NONE];
  if (found.length === 0)
    return [
      `The treatments differ (${pText(p)}), but no single pair stands out: more beds would say which.`,
      NOT_WORTH,
    ];
  return [...found.map((each) => foundText(each, decimals)), WOLF(p), NOT_WORTH];
}

const largest = (differences: readonly Difference[]): Difference | undefined =>
  [...differences].sort((one, other) => one.p - other.p)[0];

function foundText({ from, to, difference: { estimate, low, high } }: Difference, decimals: number): string {
  const [more, less] = estimate >= 0 ? [to, from] : [from, to];
  const ends = [Math.abs(low), Math.abs(high)].sort((one, other) => one - other) as [number, number];
  const between =
    low * high > 0
      ? `between ${fixed(ends[0], decimals)} and ${fixed(ends[1], decimals)}`
      : `up to ${fixed(ends[1], decimals)}`;
  return `Beds of ${more} lie above those of ${less} by ${fixed(Math.abs(estimate), decimals)}; ${between} fits with these beds.`;
}

const notFound = ({ from, to, difference: { low, high } }: Difference, p: number, decimals: number): string =>
  `These beds do not show that the treatments differ (${pText(p)}). Anything from ${fixed(low, decimals)} to ${fixed(high, decimals)} between ${from} and ${to} fits with them.`;

const NOT_NONE = 'That is not the same as no difference: it may be there and too small for so few beds.';

const WOLF = (p: number): string =>
  `Were there no difference at all, chance would bring one as large or larger in ${p < 0.001 ? 'fewer than 1 of 1,000' : `about ${Math.round(p * 1000)} of 1,000`} such trials.`;

const NOT_WORTH =
  'It does not say that the difference is worth its cost: hold both ends of the interval against what would be. Nor does it hold for other sand, seasons or cultivars than those that were tried.';
