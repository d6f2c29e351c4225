/** All that can be said of a sand from what was measured of it. */

import type { SandMeasured } from '../model/sand.js';
import { type SandWork, sandCautions } from './sand-cautions.js';
import { type SandCooling, sandCooling } from './sand-cooling.js';
import type { DryingState } from './sand-drying.js';
import { type SandLimits, sandLimits } from './sand-limits.js';
import type { SandMoisture } from './sand-moisture.js';
import { judgeSand, type SandJudgement, type SandVerdict } from './sand-verdict.js';
import { waterOf } from './sand-water.js';

export interface SandReport {
  readonly grains?: SandJudgement;
  /** In plain words: `coarse enough for air, and clean`. */
  readonly plain?: string;
  readonly moisture?: SandMoisture;
  /** Whether the sample had dried out; `unknown` where it was weighed dry once only. */
  readonly drying?: DryingState;
  readonly cooling?: SandCooling;
  readonly cautions: readonly string[];
}

const PLAIN: Readonly<Record<SandVerdict, string>> = {
  good: 'coarse enough for air, and clean',
  'too dirty': 'too dirty',
  'too fine': 'too fine for air',
  'too coarse': 'too coarse',
  unknown: 'not known whether it is fit',
};

/**
 * Grains by the sieving, water by the weighing, warmth against the shade: each where it was measured.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES for a measurement that cannot be
 */
export function sandReport(measured: SandMeasured, limits: SandLimits = sandLimits()): SandReport {
  const { sieving, weighing, warmth } = measured;
  const grains = sieving && judgeSand(sieving, limits);
  return {
    ...(grains && { grains, plain: plainOf(grains) }),
    ...(weighing && waterOf(weighing, limits)),
    ...(warmth && { cooling: sandCooling(warmth, limits) }),
    cautions: cautionsOf(measured),
  };
}

const plainOf = ({ verdict, faults }: SandJudgement): string =>
  faults.length > 0 ? faults.map((fault) => PLAIN[fault]).join(', and ') : PLAIN[verdict];

function cautionsOf({ sieving, weighing, warmth }: SandMeasured): string[] {
  const works: SandWork[] = [];
  if (weighing?.way === 'pan') works.push('drying in a pan');
  if (sieving) works.push('sieving');
  if (warmth || weighing?.way === 'oven') works.push('drying in the sun');
  return [...new Set(works.flatMap(sandCautions))];
}
