/**
 * How wide the limits must be for a wanted run length in control: the inverse of the run lengths, by bisection.
 */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { oneSidedCusumRunLength, twoSidedCusumRunLength } from './cusum-run-length.js';
import { ewmaRunLength } from './ewma-run-length.js';

export interface Bisection {
  /** Half width of the last bracket at which the middle is taken, in the unit of the limit. */
  readonly tolerance: number;
  /** Halvings after which it has not converged. */
  readonly most: number;
}

/** 40 halvings take a bracket of 50 to 5e-11. */
const BISECTION: Bisection = { tolerance: 1e-9, most: 60 };

/** Observations: longest run that can be asked for. */
const WANTED_MOST = 1e9;

/**
 * Decision limit of a cumulative sum, in standard deviations.
 *
 * @param slack in standard deviations, in [0, 10]
 * @param runLength wanted in control, observations, up to 1e9
 * @param sides 1 for the upper sum alone, 2 for both
 * @throws SandlarderError OUT_OF_DOMAIN, also where a limit of 0 runs longer already; LIMIT_EXCEEDED where the limit
 * would be above 50 (little slack, long runs) or the bisection does not converge
 */
export function cusumLimitFor(
  slack: number,
  runLength: number,
  sides: 1 | 2,
  bisection: Bisection = BISECTION,
): number {
  const runLengthOf = sides === 1 ? oneSidedCusumRunLength : twoSidedCusumRunLength;
  return limitFor((limit) => runLengthOf({ slack, limit, shift: 0 }), runLength, [0, 50], bisection);
}

/**
 * Half width of the asymptotic limits of a moving average, in standard deviations of the smoothed value.
 *
 * @param weight of the newest observation, in [0.02, 1]
 * @param runLength wanted in control, observations, up to 1e9
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where the bisection does not converge
 */
export function ewmaWidthFor(weight: number, runLength: number, bisection: Bisection = BISECTION): number {
  return limitFor((width) => ewmaRunLength({ weight, width, shift: 0 }), runLength, [0.01, 10], bisection);
}

/** A run length beyond what can be computed counts as longer than any that can be wanted. */
function isShorter(runLengthAt: (limit: number) => number, limit: number, wanted: number): boolean {
  try {
    return runLengthAt(limit) < wanted;
  } catch (error) {
    if (error instanceof SandlarderError && error.code === 'LIMIT_EXCEEDED') return false;
    throw error;
  }
}

function limitFor(
  runLengthAt: (limit: number) => number,
  wanted: number,
  [least, most]: readonly [number, number],
  bisection: Bisection,
): number {
  requireInDomain('run length, observations', wanted, runLengthAt(least), WANTED_MOST);
  if (isShorter(runLengthAt, most, wanted))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `limit for a run length of ${wanted}: expected at most ${most}`,
    );
  let [low, high] = [least, most];
  for (let halving = 0; halving < bisection.most; halving += 1) {
    const middle = (low + high) / 2;
    if ((high - low) / 2 <= bisection.tolerance) return middle;
    if (isShorter(runLengthAt, middle, wanted)) low = middle;
    else high = middle;
  }
  throw new SandlarderError(
    'LIMIT_EXCEEDED',
    `limit for a run length of ${wanted}: expected a bracket of ${bisection.tolerance} within ${bisection.most} halvings, got ${high - low}`,
  );
}
