/**
 * Two or more things varied together in blocks: each alone, and each pair of them beside what they do alone. What three
 * do together goes into the scatter, or into the blocks where a design confounds it with them.
 */

import type { Difference, TreatmentSummary } from './comparison.js';
import { fisherP } from './distributions.js';
import { fitTerms, type LinearFit, type TermSquares } from './linear-model.js';
import { pairOf } from './one-way.js';
import { pairsOf } from './pairs.js';
import { type BedValue, groupsOf, type PerBed, perBed } from './per-bed.js';
import { summariesOf } from './summaries.js';

export interface FactorialBed extends BedValue {
  readonly block: string;
  /** Of each factor, its level. */
  readonly factors: Readonly<Record<string, string>>;
}

export interface FactorialRow extends TermSquares {
  /** Null for blocks: they were not given by chance. */
  readonly f: number | null;
  readonly p: number | null;
}

/** A factor by itself, over the levels of the others. */
export interface FactorMeans {
  readonly name: string;
  readonly levels: readonly TreatmentSummary[];
  /** As the fit has them, all pairs of a factor's levels together; none where beds do not scatter. */
  readonly differences: readonly Difference[];
}

export interface Factorial {
  readonly means: readonly FactorMeans[];
  readonly rows: readonly FactorialRow[];
  readonly residualDf: number;
  readonly residualSquares: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES where terms cannot be told apart or no scatter is left, CONFLICT for a bed twice */
export function factorialInBlocks(beds: readonly FactorialBed[], factors: readonly string[]): Factorial {
  const values: PerBed = perBed(beds);
  const fit = fitTerms(
    values.map(({ value }) => value),
    [
      { name: 'blocks', levels: beds.map(({ block }) => block) },
      ...factors.map((name) => ({ name, levels: beds.map((bed) => bed.factors[name] ?? '') })),
    ],
    pairsOf(factors),
  );
  const { residualDf, residualSquares } = fit;
  const mean = residualSquares / residualDf;
  return {
    ...{ residualDf, residualSquares, means: factors.map((name) => meansOf(name, beds, fit)) },
    rows: fit.terms.map((term, at) => {
      if (at === 0 || !(mean > 0)) return { ...term, f: null, p: null };
      const f = term.squares / term.df / mean;
      return { ...term, f, p: fisherP(f, term.df, residualDf) };
    }),
  };
}

function meansOf(name: string, beds: readonly FactorialBed[], fit: LinearFit): FactorMeans {
  const groups = groupsOf(perBed(beds.map((bed) => ({ ...bed, treatment: bed.factors[name] ?? '' }))), 1);
  const variance = fit.residualSquares / fit.residualDf;
  const differences = pairsOf(groups).map(([{ treatment: from }, { treatment: to }]) => {
    const { estimate, factor } = fit.difference(name, from, to);
    const sized = pairOf(estimate, Math.sqrt(variance * factor), fit.residualDf, groups.length);
    return { from, to, ...sized, g: null };
  });
  return { name, levels: summariesOf(groups), differences: variance > 0 ? differences : [] };
}
