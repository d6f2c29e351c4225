/**
 * Two or more things varied together in blocks: each alone, and each pair of them beside what they do alone. What three
 * do together goes into the scatter, or into the blocks where a design confounds it with them.
 */
import { fisherP } from './distributions.js';
import { fitTerms, type TermSquares } from './linear-model.js';
import { pairsOf } from './pairs.js';
import { type BedValue, type PerBed, perBed } from './per-bed.js';

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

export interface Factorial {
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
    ...{ residualDf, residualSquares },
    rows: fit.terms.map((term, at) => {
      if (at === 0 || !(mean > 0)) return { ...term, f: null, p: null };
      const f = term.squares / term.df / mean;
      return { ...term, f, p: fisherP(f, term.df, residualDf) };
    }),
  };
}
