/**
 * Average run length of a cumulative sum: how many observations pass until it signals, for independent normal
 * observations of deviation 1.
 *
 * From sum s the run length is L(s) = 1 + L(0) P(s + x - slack <= 0) + integral over 0..limit of
 * L(y) density(y - s + slack - shift) dy, solved at Gauss-Legendre nodes. Source: E. S. Page, Biometrika 41 (1954);
 * A. L. Goel & S. M. Wu, Technometrics 13 (1971) 221-230 (both from memory).
 */
import { requireInDomain } from '../../errors.js';
import { gaussLegendre } from './gauss-legendre.js';
import { solveLinear } from './linear-system.js';
import { normalDensity, normalTail } from './normal.js';
import { isRunLength, requireRunLength } from './run-length.js';

/** All in standard deviations of one observation. */
export interface CusumInDeviations {
  /** Slack, in [0, 10]. */
  readonly slack: number;
  /** Decision limit, in [0, 50]; at 0 any observation above the slack signals. */
  readonly limit: number;
  /** By how far the mean lies off the target, in [-10, 10]; 0 is in control. */
  readonly shift: number;
}

/** Nodes: some, and so many more for each deviation of the limit. 300 give the same to 1e-11 (run lengths to 1,000). */
const NODES = 14;
const NODES_A_DEVIATION = 4;

/**
 * Average run length of the upper sum alone, begun at 0.
 *
 * @returns observations until the signal, that one included
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where the run length is above 1e10
 * @remarks Relative error below 1e-7 up to a run length of 1e6, below 1e-4 up to 1e10: it grows with the run length.
 */
export function oneSidedCusumRunLength(design: CusumInDeviations): number {
  return requireRunLength(runLengthFromZero(design));
}

/**
 * Average run length of both sums together, begun at 0.
 *
 * @returns observations until the first signal of either
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where the run length is above 1e10
 * @remarks 1/L = 1/L(upper) + 1/L(lower), which is exact for equal limits and slacks begun at 0 (K. W. Kemp,
 * J. Roy. Statist. Soc. B 23 (1961) 149-153, from memory). Accuracy as for one side; the side that the shift leads
 * away from counts as silent where its run length is above 1e10.
 */
export function twoSidedCusumRunLength(design: CusumInDeviations): number {
  const upper = runLengthFromZero(design);
  const lower = design.shift === 0 ? upper : runLengthFromZero({ ...design, shift: -design.shift });
  const signals = [upper, lower].filter(isRunLength).reduce((sum, runLength) => sum + 1 / runLength, 0);
  return requireRunLength(1 / signals);
}

/** Not yet known to be one: see `isRunLength`. */
function runLengthFromZero(design: CusumInDeviations): number {
  const { slack, limit, shift } = design;
  requireInDomain('slack, deviations', slack, 0, 10);
  requireInDomain('limit, deviations', limit, 0, 50);
  requireInDomain('shift, deviations', shift, -10, 10);
  return limit === 0 ? 1 / normalTail(slack - shift) : (runLengths(design)[0] as number);
}

/** Run lengths from 0 and from each node. */
function runLengths({ slack, limit, shift }: CusumInDeviations): Float64Array {
  const { nodes, weights } = gaussLegendre(NODES + Math.ceil(NODES_A_DEVIATION * limit), 0, limit);
  const sums = Float64Array.of(0, ...nodes);
  const size = sums.length;
  const matrix = new Float64Array(size * size);
  sums.forEach((from, row) => {
    matrix[row * size] = -normalTail(from + shift - slack);
    nodes.forEach((to, at) => {
      matrix[row * size + at + 1] = -(weights[at] as number) * normalDensity(to - from + slack - shift);
    });
    matrix[row * size + row] = (matrix[row * size + row] as number) + 1;
  });
  return solveLinear(matrix, new Float64Array(size).fill(1));
}
