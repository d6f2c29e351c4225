/** Treatments compared by what they lose over time, with the bed as the unit wherever a bed holds more than one root. */
import { SandlarderError } from '../errors.js';
import { keptUntil, type SurvivalStep } from '../keeping/index.js';
import { type Interval, LEVEL } from './comparison.js';
import { normalFactor, studentFactor } from './distributions.js';
import { holm } from './holm.js';
import { bedExcess, type LogRank, logRank } from './log-rank.js';
import { momentsOf, varianceOf } from './moments.js';
import { pairsOf } from './pairs.js';
import { type PerBed, perBed } from './per-bed.js';
import { type Permutation, permutationTest } from './permutation.js';
import { keptSteps, type RootsSeen, requireSeen, rootsOf, stepAt } from './roots-seen.js';
import { welchT } from './welch.js';

export interface KeptTreatment {
  readonly treatment: string;
  readonly beds: number;
  readonly roots: number;
  readonly lost: number;
  readonly expected: number;
  readonly steps: readonly SurvivalStep[];
  /** Time by which half are lost; null where more are kept. */
  readonly median: number | null;
  /** Share kept at the common time; of beds with several roots the mean of the beds. */
  readonly kept: number;
  /** Null where there is no scatter to tell one from. */
  readonly interval: { readonly low: number; readonly high: number } | null;
}

export interface KeptDifference {
  readonly from: string;
  readonly to: string;
  /** Of the shares kept at the common time; null ends where there is no scatter to tell them from. */
  readonly difference: {
    readonly estimate: number;
    readonly low: number | null;
    readonly high: number | null;
  };
  /** How many times as fast the second loses roots (one-step estimate of Peto), with its interval; null by beds. */
  readonly ratio: Interval | null;
  readonly p: number;
}

export interface SurvivalComparison {
  readonly design: 'survival';
  readonly beds: number;
  readonly roots: number;
  /** Whether a bed holds more than one root, so that roots share its fate. */
  readonly clustered: boolean;
  /** Until when roots of every treatment were followed. */
  readonly commonTime: number;
  readonly treatments: readonly KeptTreatment[];
  readonly differences: readonly KeptDifference[];
  readonly correction: string | null;
  readonly logRank: LogRank;
  /** By beds; null where each bed is one root, so that the log-rank test itself is by beds. */
  readonly byBed: Permutation | null;
}

/** @throws SandlarderError TOO_FEW_SAMPLES, OUT_OF_DOMAIN, CONFLICT */
export function compareSurvival(seen: readonly RootsSeen[]): SurvivalComparison {
  requireSeen(seen);
  const names = [...new Set(seen.map(({ treatment }) => treatment))];
  const of = (name: string): RootsSeen[] => seen.filter(({ treatment }) => treatment === name);
  const overall = logRank(seen);
  const beds = new Set(seen.map(({ bed }) => bed)).size;
  const clustered = rootsOf(seen) > beds;
  if (clustered) for (const name of names) requireBeds(name, of(name));
  const commonTime = Math.min(...names.map((name) => Math.max(...of(name).map(({ time }) => time))));
  const pairs = pairsOf(names);
  const tested = pairs.map((pair) => testPair([of(pair[0]), of(pair[1])], clustered));
  const ps = holm(tested.map(({ p }) => p));
  return {
    design: 'survival',
    ...{ beds, roots: rootsOf(seen), clustered, commonTime, logRank: overall },
    treatments: names.map((name, at) => treatmentOf(of(name), overall.treatments[at], commonTime, clustered)),
    differences: pairs.map(([from, to], at) => ({
      ...{ from, to, ratio: tested[at]?.ratio ?? null, p: ps[at] as number },
      difference: (clustered ? differenceByBed : differenceByRoot)(of(from), of(to), commonTime),
    })),
    correction: names.length === 2 ? null : 'Holm',
    byBed: clustered ? permutationTest(excessByBed(seen)) : null,
  };
}

function requireBeds(treatment: string, seen: readonly RootsSeen[]): void {
  const beds = new Set(seen.map(({ bed }) => bed)).size;
  if (!(beds >= 2))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `treatment "${treatment}": expected at least 2 beds, as roots of one bed share its fate, got ${beds}`,
    );
}

function excessByBed(seen: readonly RootsSeen[]): PerBed {
  const excess = bedExcess(seen);
  const first = new Map(seen.map((one) => [one.bed, one]));
  return perBed(
    [...first.values()].map(({ bed, treatment, block }) => ({
      ...{ bed, treatment, value: excess.get(bed) as number },
      ...(block !== undefined && { block }),
    })),
  );
}

function testPair(
  [one, other]: [RootsSeen[], RootsSeen[]],
  clustered: boolean,
): { p: number; ratio: Interval | null } {
  const both = [...one, ...other];
  if (!both.some(({ lost }) => lost)) return { p: 1, ratio: null };
  if (clustered) return { p: permutationTest(excessByBed(both)).p, ratio: null };
  const { p, variance, treatments } = logRank(both);
  const { lost = 0, expected = 0 } = treatments[0] ?? {};
  // The excess of the second is that of the first with the other sign.
  const middle = -(lost - expected) / variance;
  const half = normalFactor(LEVEL) / Math.sqrt(variance);
  return {
    p,
    ratio: { estimate: Math.exp(middle), low: Math.exp(middle - half), high: Math.exp(middle + half) },
  };
}

/** Share kept in each bed at a time. */
export function keptByBed(seen: readonly RootsSeen[], time: number): number[] {
  const beds = [...new Set(seen.map(({ bed }) => bed))];
  return beds.map((bed) => stepAt(keptSteps(seen.filter((one) => one.bed === bed)), time)?.survival ?? 1);
}

function treatmentOf(
  seen: readonly RootsSeen[],
  counted: LogRank['treatments'][number] | undefined,
  time: number,
  clustered: boolean,
): KeptTreatment {
  const steps = keptSteps(seen);
  const step = stepAt(steps, time);
  const common = {
    ...{ treatment: seen[0]?.treatment as string, beds: new Set(seen.map(({ bed }) => bed)).size },
    ...{ roots: rootsOf(seen), lost: counted?.lost ?? 0, expected: counted?.expected ?? 0, steps },
    median: keptUntil(steps, 0.5) ?? null,
  };
  if (!clustered) {
    const { low = null, high = null } = step ?? {};
    return {
      ...common,
      kept: step?.survival ?? 1,
      interval: low === null || high === null ? null : { low, high },
    };
  }
  const moments = momentsOf(keptByBed(seen, time));
  const half = studentFactor(LEVEL, moments.n - 1) * Math.sqrt(varianceOf(moments) / moments.n);
  const interval = half > 0 ? { low: moments.mean - half, high: moments.mean + half } : null;
  return { ...common, kept: moments.mean, interval };
}

type KeptInterval = KeptDifference['difference'];

function differenceByBed(one: readonly RootsSeen[], other: readonly RootsSeen[], time: number): KeptInterval {
  const [first, second] = [one, other].map((seen) => {
    const moments = momentsOf(keptByBed(seen, time));
    return { n: moments.n, mean: moments.mean, variance: varianceOf(moments) };
  }) as [{ n: number; mean: number; variance: number }, { n: number; mean: number; variance: number }];
  if (!(first.variance + second.variance > 0))
    return { estimate: second.mean - first.mean, low: null, high: null };
  const { difference, standardError, df } = welchT(first, second);
  const half = studentFactor(LEVEL, df) * standardError;
  return { estimate: difference, low: difference - half, high: difference + half };
}

function differenceByRoot(
  one: readonly RootsSeen[],
  other: readonly RootsSeen[],
  time: number,
): KeptInterval {
  const [first, second] = [one, other].map((seen) => stepAt(keptSteps(seen), time));
  const estimate = (second?.survival ?? 1) - (first?.survival ?? 1);
  const squared = [first, second].map((step) =>
    step === undefined ? 0 : (step.standardError ?? Number.NaN) ** 2,
  );
  const half = normalFactor(LEVEL) * Math.sqrt((squared[0] as number) + (squared[1] as number));
  return half > 0
    ? { estimate, low: estimate - half, high: estimate + half }
    : { estimate, low: null, high: null };
}
