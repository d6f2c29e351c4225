/**
 * Ranks of all beds: W. H. Kruskal & W. A. Wallis, J. Am. Stat. Assoc. 47 (1952) 583-621, corrected for ties; pairs by O. J.
 * Dunn's z of mean ranks (1964), corrected after Holm; shifts between pairs after J. L. Hodges & E. L. Lehmann (1963) with
 * the interval that the rank sum test leaves (normal approximation). Titles from memory.
 */
import { median } from 'simple-statistics';
import { SandlarderError } from '../errors.js';
import { type Comparison, type Difference, type Interval, LEVEL } from './comparison.js';
import { chiSquareP, normalFactor, normalP } from './distributions.js';
import { holm } from './holm.js';
import { sumOf } from './moments.js';
import { pairsOf } from './pairs.js';
import { type Group, groupsOf, type PerBed } from './per-bed.js';
import { ranksOf } from './ranks.js';
import { summariesOf } from './summaries.js';

interface RankedGroup extends Group {
  readonly meanRank: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES for fewer than two treatments, or beds that are all equal */
export function compareByRanks(values: PerBed): Omit<Comparison, 'assumptions'> {
  const groups = groupsOf(values);
  const n = values.length;
  const { ranks, ties } = ranksOf(values.map(({ value }) => value));
  const left = 1 - ties / (n ** 3 - n);
  if (!(left > 0))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'beds: expected values that differ somewhere, got equal ones',
    );
  const ranked = groups.map((group): RankedGroup => {
    const own = ranks.filter((_, at) => values[at]?.treatment === group.treatment);
    return { ...group, meanRank: sumOf(own) / own.length };
  });
  const middle = (n + 1) / 2;
  const h =
    (12 * sumOf(ranked.map((group) => group.values.length * (group.meanRank - middle) ** 2))) /
    (n * (n + 1)) /
    left;
  const df = groups.length - 1;
  return {
    design: 'kruskal',
    ...{ beds: n, blocks: null },
    treatments: summariesOf(groups).map((summary) => ({ ...summary, interval: null })),
    differences: differencesOf(ranked, ((n * (n + 1)) / 12) * left),
    correction: groups.length === 2 ? null : 'Holm',
    effects: [{ name: 'epsilon squared', value: h / (n - 1) }],
    tests: [
      { name: 'Kruskal-Wallis test', statistic: 'chi-square', value: h, df: [df], p: chiSquareP(h, df) },
    ],
  };
}

function differencesOf(ranked: readonly RankedGroup[], variance: number): Difference[] {
  const pairs = pairsOf(ranked);
  const ps = pairs.map(([one, other]) => {
    const spread = Math.sqrt(variance * (1 / one.values.length + 1 / other.values.length));
    return normalP((other.meanRank - one.meanRank) / spread);
  });
  const corrected = holm(ps);
  return pairs.map(([one, other], at) => ({
    ...{ from: one.treatment, to: other.treatment, g: null },
    difference: shiftOf(one.values, other.values, 1 - (1 - LEVEL) / pairs.length),
    p: corrected[at] as number,
  }));
}

/**
 * By how much the second lies above the first: the median of all differences between a bed of one and a bed of the other.
 *
 * @param level of the interval; it is as wide as there are differences where beds are too few for it
 */
export function shiftOf(one: readonly number[], other: readonly number[], level: number): Interval {
  const [m, n] = [one.length, other.length];
  const differences = one.flatMap((from) => other.map((to) => to - from)).sort((a, b) => a - b);
  const reach = normalFactor(level) * Math.sqrt((m * n * (m + n + 1)) / 12);
  const rank = Math.max(1, Math.floor((m * n) / 2 - reach)) - 1;
  return {
    estimate: median(differences),
    low: differences[rank] as number,
    high: differences[m * n - 1 - rank] as number,
  };
}
