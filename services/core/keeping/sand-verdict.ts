/** Whether a sand is fit to keep roots in, by its grains. */
import type { Sieving } from '../model/sand-samples.js';
import { type UnifiedClass, unifiedClassOf, type WentworthName, wentworthClassOf } from './sand-classes.js';
import { flowOf, type SandFlow } from './sand-flow.js';
import { type Gradation, gradationOf } from './sand-gradation.js';
import { type GrainSize, type Grains, grainsOf, type PercentRange, sizeText } from './sand-grains.js';
import {
  type CitedLimit,
  cite,
  SAND_LIMITS,
  type SandLimitName,
  type SandLimits,
  sandLimits,
} from './sand-limits.js';
import { asSentence, inDigits } from './sand-words.js';

/** In the order in which they are said. */
export const SAND_FAULTS = ['too dirty', 'too fine', 'too coarse'] as const;
export type SandFault = (typeof SAND_FAULTS)[number];
export type SandVerdict = 'good' | SandFault | 'unknown';

export type Met = 'met' | 'not met' | 'unknown';

/** One property of the sand held against one limit. */
export interface SandCheck {
  readonly fault: SandFault;
  /** `not met` is the fault. */
  readonly state: Met;
  readonly measure: string;
  readonly limit: CitedLimit;
  readonly reason: string;
}

export interface SandJudgement {
  readonly gradation: Gradation;
  readonly grains: Grains;
  readonly unified: UnifiedClass;
  /** Of the median; undefined where that lies beyond the sieves. */
  readonly wentworth: WentworthName | undefined;
  readonly flow: SandFlow;
  readonly checks: readonly SandCheck[];
  /** The first fault, if there is one; `unknown` where none is seen but one may be. */
  readonly verdict: SandVerdict;
  readonly faults: readonly SandFault[];
  readonly sentence: string;
}

const WHY = {
  dirty:
    'fines hold water, clog the pores and cling to roots. Dry sieving finds too few of them: wash a sample to be sure',
  fine: 'fine sand holds water, and its dust is breathed in',
  coarse: 'coarse grains leave wide pores through which roots dry and weevils get in',
  gravel: 'stones press into the skin of roots',
} as const;

/**
 * Judges a sand by its sieving.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES as `gradationOf`
 */
export function judgeSand(sieving: Sieving, limits: SandLimits = sandLimits()): SandJudgement {
  const gradation = gradationOf(sieving, limits);
  const grains = grainsOf(gradation);
  const checks = checksOf(grains, limits);
  const faults = SAND_FAULTS.filter((fault) =>
    checks.some((check) => check.fault === fault && check.state === 'not met'),
  );
  const verdict = faults[0] ?? (checks.every(({ state }) => state === 'met') ? 'good' : 'unknown');
  return {
    gradation,
    grains,
    unified: unifiedClassOf(grains),
    wentworth: wentworthClassOf(grains.d50),
    flow: flowOf(grains),
    checks,
    verdict,
    faults,
    sentence: sentenceOf(verdict, checks, grains),
  };
}

function checksOf({ fines, gravel, d50 }: Grains, limits: SandLimits): SandCheck[] {
  const check = (
    fault: SandFault,
    name: SandLimitName,
    state: Met,
    measure: string,
    reason: string,
  ): SandCheck => ({
    fault,
    state,
    measure,
    limit: cite(SAND_LIMITS, name, limits[name]),
    reason,
  });
  const median = `median ${sizeText(d50)}`;
  const { sand_fines_most_percent, sand_median_least_mm, sand_median_most_mm, sand_gravel_most_percent } =
    limits;
  return [
    check(
      'too dirty',
      'sand_fines_most_percent',
      upTo(fines, sand_fines_most_percent),
      `fines ${rangeText(fines)}`,
      WHY.dirty,
    ),
    check('too fine', 'sand_median_least_mm', notFiner(d50, sand_median_least_mm), median, WHY.fine),
    check('too coarse', 'sand_median_most_mm', notCoarser(d50, sand_median_most_mm), median, WHY.coarse),
    check(
      'too coarse',
      'sand_gravel_most_percent',
      upTo(gravel, sand_gravel_most_percent),
      `gravel ${rangeText(gravel)}`,
      WHY.gravel,
    ),
  ];
}

/** A share that must not be above a limit; one that lies between two ends may be undecided. */
function upTo({ low, high }: PercentRange, most: number): Met {
  if (high <= most) return 'met';
  return low > most ? 'not met' : 'unknown';
}

function notFiner({ is, mm }: GrainSize, least_mm: number): Met {
  if (is === 'known') return mm >= least_mm ? 'met' : 'not met';
  if (is === 'below') return mm <= least_mm ? 'not met' : 'unknown';
  return mm >= least_mm ? 'met' : 'unknown';
}

function notCoarser({ is, mm }: GrainSize, most_mm: number): Met {
  if (is === 'known') return mm <= most_mm ? 'met' : 'not met';
  if (is === 'above') return mm >= most_mm ? 'not met' : 'unknown';
  return mm <= most_mm ? 'met' : 'unknown';
}

const rangeText = ({ low, high }: PercentRange): string =>
  low === high ? `${inDigits(low)} %` : `between ${inDigits(low)} and ${inDigits(high)} %`;

function sentenceOf(verdict: SandVerdict, checks: readonly SandCheck[], { d50, fines }: Grains): string {
  if (verdict === 'good') return `Good: median ${sizeText(d50)}, fines ${rangeText(fines)}.`;
  const told = checks.filter(({ state }) => state === (verdict === 'unknown' ? 'unknown' : 'not met'));
  return asSentence(
    told
      .map(({ fault, measure, limit }) => {
        const side = limit.name === 'sand_median_least_mm' ? 'at least' : 'at most';
        const unit = limit.unit.startsWith('%') ? '%' : limit.unit;
        const word = verdict === 'unknown' ? `not known whether ${fault}` : fault;
        return `${word} (${measure}, ${side} ${limit.value} ${unit})`;
      })
      .join(', '),
  );
}
