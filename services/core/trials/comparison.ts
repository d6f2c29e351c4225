/** What a comparison of treatments comes to: the size of what was found first, and then how surely it is there. */

export const DESIGNS = ['welch', 'anova', 'blocks', 'kruskal', 'survival'] as const;
export type Design = (typeof DESIGNS)[number];

/** Level of every interval. */
export const LEVEL = 0.95;

export interface Interval {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

export interface TreatmentSummary {
  readonly treatment: string;
  readonly beds: number;
  readonly mean: number;
  /** Between its beds; null for one bed. */
  readonly sd: number | null;
  readonly median: number;
  /** Of its mean; of ranks, of its median there is none: null. */
  readonly interval: { readonly low: number; readonly high: number } | null;
}

/** By how much the second exceeds the first. */
export interface Difference {
  readonly from: string;
  readonly to: string;
  readonly difference: Interval;
  /** In standard deviations between beds, corrected for few beds (Hedges g); null where no one deviation holds. */
  readonly g: Interval | null;
  /** For all pairs together; of a single pair its own. */
  readonly p: number;
}

export interface Test {
  readonly name: string;
  readonly statistic: string;
  readonly value: number;
  readonly df: readonly number[];
  readonly p: number;
}

export interface EffectSize {
  readonly name: string;
  readonly value: number;
}

export interface Assumption {
  readonly about: string;
  /** What was looked at and what it showed, in a sentence. */
  readonly said: string;
  readonly p: number | null;
}

export interface Comparison {
  readonly design: Design;
  readonly beds: number;
  readonly blocks: number | null;
  readonly treatments: readonly TreatmentSummary[];
  readonly differences: readonly Difference[];
  /** How p and intervals of pairs were corrected for their number; null for a single pair. */
  readonly correction: string | null;
  readonly effects: readonly EffectSize[];
  readonly tests: readonly Test[];
  readonly assumptions: readonly Assumption[];
}

/** The test that the design is named for. */
export const mainTest = ({ tests }: Comparison): Test => tests[0] as Test;
