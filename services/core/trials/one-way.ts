/**
 * One-way analysis of variance, with pairs by Tukey's honestly significant difference (J. W. Tukey; for unequal numbers of
 * beds C. Y. Kramer, Biometrics 12 (1956) 307-310; titles from memory).
 */
import { SandlarderError } from '../errors.js';
import { type Comparison, type Difference, LEVEL } from './comparison.js';
import { fisherP, rangeFactor, rangeP, studentFactor, studentP } from './distributions.js';
import { hedgesG, type Split, sharesOf } from './effect-size.js';
import { momentsOf } from './moments.js';
import { pairsOf } from './pairs.js';
import { type Group, groupsOf, type PerBed } from './per-bed.js';
import { splitOf } from './split.js';
import { summariesOf } from './summaries.js';

export interface OneWay extends Split {
  readonly f: number;
  readonly p: number;
  readonly residualSd: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES where nothing differs within treatments */
export function oneWay(values: PerBed): OneWay {
  const groups = groupsOf(values, 1);
  const split = splitOf(groups);
  const { between, betweenDf, within, withinDf } = split;
  if (!(withinDf >= 1 && within > 0))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'beds of a treatment: expected two or more that differ somewhere, got none: there is nothing to hold a difference against',
    );
  const f = between / betweenDf / (within / withinDf);
  return { ...split, f, p: fisherP(f, betweenDf, withinDf), residualSd: Math.sqrt(within / withinDf) };
}

/** @throws SandlarderError TOO_FEW_SAMPLES */
export function compareByAnova(values: PerBed): Omit<Comparison, 'assumptions'> {
  const groups = groupsOf(values);
  const found = oneWay(values);
  const { f, p, betweenDf, withinDf } = found;
  return {
    design: 'anova',
    ...{ beds: values.length, blocks: null, treatments: summariesOf(groups) },
    differences: pairsOf(groups).map((pair) => tukeyPair(pair, found, groups.length)),
    correction: groups.length === 2 ? null : 'Tukey',
    effects: sharesOf(found),
    tests: [{ name: 'One-way analysis of variance', statistic: 'F', value: f, df: [betweenDf, withinDf], p }],
  };
}

function tukeyPair(
  [one, other]: readonly [Group, Group],
  { residualSd, withinDf }: OneWay,
  of: number,
): Difference {
  const [first, second] = [one.values, other.values];
  const origin = first[0] as number;
  const shifted = (values: readonly number[]): number =>
    momentsOf(values.map((value) => value - origin)).mean;
  const difference = shifted(second) - shifted(first);
  const standardError = residualSd * Math.sqrt(1 / first.length + 1 / second.length);
  return {
    ...{ from: one.treatment, to: other.treatment },
    ...pairOf(difference, standardError, withinDf, of),
    g: hedgesG(difference, residualSd, withinDf, first.length, second.length),
  };
}

/** The distribution of the range is not reckoned below. */
const RANGE_FROM_df = 2;

/**
 * A difference with its interval, all pairs of so many treatments together; of two alone its own. Below two degrees of
 * freedom pairs are corrected after Bonferroni, which asks for more than the range does.
 */
export function pairOf(
  difference: number,
  standardError: number,
  df: number,
  of: number,
): Pick<Difference, 'difference' | 'p'> {
  const t = Math.abs(difference / standardError);
  const pairs = (of * (of - 1)) / 2;
  const byRange = of > 2 && df >= RANGE_FROM_df;
  const factor = byRange
    ? rangeFactor(LEVEL, of, df) / Math.SQRT2
    : studentFactor(1 - (1 - LEVEL) / pairs, df);
  const half = factor * standardError;
  return {
    difference: { estimate: difference, low: difference - half, high: difference + half },
    p: byRange ? rangeP(t * Math.SQRT2, of, df) : Math.min(1, pairs * studentP(t, df)),
  };
}
