/**
 * Means of treatments whose beds may scatter unequally: Welch's t for two, Welch's analysis of variance for more, with
 * the pairs after Games & Howell.
 *
 * Sources (titles from memory): B. L. Welch, Biometrika 34 (1947) 28-35 and 38 (1951) 330-336; degrees of freedom after
 * F. E. Satterthwaite 1946; P. A. Games & J. F. Howell, J. Educ. Stat. 1 (1976) 113-125.
 */
import { SandlarderError } from '../errors.js';
import type { Comparison, Difference, Test } from './comparison.js';
import { fisherP, studentP } from './distributions.js';
import { hedgesG, sharesOf } from './effect-size.js';
import { type Moments, momentsOf, moved, sumOf, varianceOf } from './moments.js';
import { pairOf } from './one-way.js';
import { pairsOf } from './pairs.js';
import { type Group, groupsOf, type PerBed } from './per-bed.js';
import { splitOf } from './split.js';
import { summariesOf } from './summaries.js';

export interface Summary {
  readonly n: number;
  readonly mean: number;
  /** Between beds, above 0. */
  readonly variance: number;
}

export interface WelchT {
  /** The second mean less the first. */
  readonly difference: number;
  readonly standardError: number;
  readonly t: number;
  readonly df: number;
  readonly p: number;
}

/**
 * Welch's t of two treatments, by their summaries.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES where nothing differs within either
 */
export function welchT(one: Summary, other: Summary): WelchT {
  const [first, second] = [one.variance / one.n, other.variance / other.n];
  if (!(first + second > 0)) throw noScatter();
  const standardError = Math.sqrt(first + second);
  const df = (first + second) ** 2 / (first ** 2 / (one.n - 1) + second ** 2 / (other.n - 1));
  const difference = other.mean - one.mean;
  const t = difference / standardError;
  return { difference, standardError, t, df, p: studentP(t, df) };
}

const noScatter = (): SandlarderError =>
  new SandlarderError(
    'TOO_FEW_SAMPLES',
    'beds of a treatment: expected values that differ somewhere, got equal ones: there is nothing to hold a difference against',
  );

/** Welch's F. @throws SandlarderError TOO_FEW_SAMPLES for a treatment whose beds are all equal */
export function welchF(groups: readonly Summary[]): {
  f: number;
  between: number;
  within: number;
  p: number;
} {
  if (!groups.every(({ variance }) => variance > 0)) throw noScatter();
  const k = groups.length;
  const weights = groups.map(({ n, variance }) => n / variance);
  const all = sumOf(weights);
  const mean = sumOf(groups.map((group, at) => (weights[at] as number) * group.mean)) / all;
  const between =
    sumOf(groups.map((group, at) => (weights[at] as number) * (group.mean - mean) ** 2)) / (k - 1);
  const unsure = sumOf(groups.map(({ n }, at) => (1 - (weights[at] as number) / all) ** 2 / (n - 1)));
  const f = between / (1 + (2 * (k - 2) * unsure) / (k ** 2 - 1));
  const within = (k ** 2 - 1) / (3 * unsure);
  return { f, between: k - 1, within, p: fisherP(f, k - 1, within) };
}

/** @throws SandlarderError TOO_FEW_SAMPLES */
export function compareByWelch(values: PerBed): Omit<Comparison, 'assumptions'> {
  const groups = groupsOf(values);
  const all = moved(values.map(({ value }) => value)).origin;
  const moments = groups.map((group) => momentsOf(group.values.map((value) => value - all)));
  const summaries = moments.map((of) => ({ n: of.n, mean: of.mean, variance: varianceOf(of) }));
  const two = groups.length === 2;
  return {
    design: 'welch',
    ...{ beds: values.length, blocks: null, treatments: summariesOf(groups) },
    differences: pairsOf(groups.map((group, at) => ({ group, at }))).map(([one, other]) =>
      differenceOf(
        [one.group, other.group],
        [moments[one.at] as Moments, moments[other.at] as Moments],
        groups.length,
      ),
    ),
    correction: two ? null : 'Games-Howell',
    effects: sharesOf(splitOf(groups)),
    tests: [two ? testOfTwo(summaries as [Summary, Summary]) : testOfMore(summaries)],
  };
}

const testOfTwo = ([one, other]: [Summary, Summary]): Test => {
  const { t, df, p } = welchT(one, other);
  return { name: "Welch's t test", statistic: 't', value: t, df: [df], p };
};

const testOfMore = (summaries: readonly Summary[]): Test => {
  const { f, between, within, p } = welchF(summaries);
  return { name: "Welch's analysis of variance", statistic: 'F', value: f, df: [between, within], p };
};

function differenceOf(
  [one, other]: [Group, Group],
  [first, second]: [Moments, Moments],
  of: number,
): Difference {
  const asSummary = (moments: Moments): Summary => ({ ...moments, variance: varianceOf(moments) });
  const { difference, standardError, df } = welchT(asSummary(first), asSummary(second));
  const degrees = first.n + second.n - 2;
  const pooled = Math.sqrt((first.squares + second.squares) / degrees);
  return {
    ...{ from: one.treatment, to: other.treatment },
    ...pairOf(difference, standardError, df, of),
    g: hedgesG(difference, pooled, degrees, first.n, second.n),
  };
}
