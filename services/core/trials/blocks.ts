/**
 * Treatments in blocks: what the blocks differ by is taken out before treatments are compared (R. A. Fisher 1935). Beds
 * that are missing are allowed; treatments are then compared as far as blocks hold them side by side. With two
 * treatments and one bed of each a block it is the paired t test. The ranks beside it are M. Friedman's (1937), where every
 * block holds every treatment once. Titles from memory.
 */
import { SandlarderError } from '../errors.js';
import type { Comparison, Test } from './comparison.js';
import { fisherP } from './distributions.js';
import { sharesOf } from './effect-size.js';
import { friedman } from './friedman.js';
import { fitTerms, type LinearFit } from './linear-model.js';
import { pairOf } from './one-way.js';
import { pairsOf } from './pairs.js';
import { groupsOf, type PerBed } from './per-bed.js';
import { summariesOf } from './summaries.js';

export interface InBlocks {
  readonly fit: LinearFit;
  readonly blocks: readonly string[];
  readonly blockSquares: number;
  readonly blockDf: number;
  readonly squares: number;
  readonly df: number;
  readonly f: number;
  readonly p: number;
}

/** @throws SandlarderError TOO_FEW_SAMPLES for a bed without a block, or fewer than two of them */
function blocksOf(values: PerBed): string[] {
  const without = values.find(({ block }) => block === undefined);
  if (without)
    throw new SandlarderError('TOO_FEW_SAMPLES', `bed "${without.bed}": expected its block, got none`);
  const blocks = [...new Set(values.map(({ block }) => block as string))];
  if (!(blocks.length >= 2))
    throw new SandlarderError('TOO_FEW_SAMPLES', `blocks: expected two or more, got ${blocks.length}`);
  return blocks;
}

/** @throws SandlarderError TOO_FEW_SAMPLES */
export function inBlocks(values: PerBed): InBlocks {
  groupsOf(values);
  const blocks = blocksOf(values);
  const fit = fitTerms(
    values.map(({ value }) => value),
    [
      { name: 'blocks', levels: values.map(({ block }) => block as string) },
      { name: 'treatments', levels: values.map(({ treatment }) => treatment) },
    ],
  );
  const [ofBlocks, ofTreatments] = fit.terms;
  const { residualDf, residualSquares } = fit;
  if (!(residualSquares > 0))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'beds: expected scatter beside blocks and treatments, got none: there is nothing to hold a difference against',
    );
  const { squares = 0, df = 0 } = ofTreatments ?? {};
  const f = squares / df / (residualSquares / residualDf);
  return {
    ...{ fit, blocks, blockSquares: ofBlocks?.squares ?? 0, blockDf: ofBlocks?.df ?? 0 },
    ...{ squares, df, f, p: fisherP(f, df, residualDf) },
  };
}

/** @throws SandlarderError TOO_FEW_SAMPLES */
export function compareInBlocks(values: PerBed): Omit<Comparison, 'assumptions'> {
  const groups = groupsOf(values);
  const { fit, blocks, squares, df, f, p } = inBlocks(values);
  const { residualDf, residualSquares } = fit;
  const variance = residualSquares / residualDf;
  const ranked = friedman(values);
  const tests: Test[] = [
    { name: 'Analysis of variance in randomised blocks', statistic: 'F', value: f, df: [df, residualDf], p },
  ];
  if (ranked) tests.push(ranked.test);
  return {
    design: 'blocks',
    ...{ beds: values.length, blocks: blocks.length, treatments: summariesOf(groups) },
    differences: pairsOf(groups).map(([{ treatment: from }, { treatment: to }]) => {
      const { estimate, factor } = fit.difference('treatments', from, to);
      return {
        from,
        to,
        ...pairOf(estimate, Math.sqrt(variance * factor), residualDf, groups.length),
        g: null,
      };
    }),
    correction: groups.length === 2 ? null : 'Tukey',
    effects: [
      ...sharesOf(
        {
          between: squares,
          betweenDf: df,
          within: residualSquares,
          withinDf: residualDf,
          beds: values.length,
        },
        'partial ',
      ),
      ...(ranked ? [{ name: "Kendall's W", value: ranked.w }] : []),
    ],
    tests,
  };
}
