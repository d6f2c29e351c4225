import { assumptionsOf } from './assumptions.js';
import { compareInBlocks } from './blocks.js';
import type { Comparison, Design } from './comparison.js';
import { compareByRanks } from './kruskal.js';
import { compareByAnova } from './one-way.js';
import type { PerBed } from './per-bed.js';
import { compareByWelch } from './welch.js';

const BY_DESIGN = {
  welch: compareByWelch,
  anova: compareByAnova,
  blocks: compareInBlocks,
  kruskal: compareByRanks,
} as const;

export type ValueDesign = Exclude<Design, 'survival'>;

/**
 * Compares treatments by one number a bed.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES where beds are too few, or do not differ within treatments
 */
export function compare(design: ValueDesign, values: PerBed): Comparison {
  return { ...BY_DESIGN[design](values), assumptions: assumptionsOf(design, values) };
}
