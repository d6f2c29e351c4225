/**
 * Average run length of an exponentially weighted moving average with its asymptotic limits, for independent normal
 * observations of deviation 1.
 *
 * From value z the run length is L(z) = 1 + 1/weight integral over -c..c of
 * L(y) density((y - (1 - weight) z) / weight - shift) dy, c = width sqrt(weight / (2 - weight)), solved at
 * Gauss-Legendre nodes. Source: S. V. Crowder, Technometrics 29 (1987) 401-407 (from memory). With the exact limits,
 * which are narrower at first, runs are a little shorter.
 */
import { requireInDomain } from '../../errors.js';
import { gaussLegendre, type Quadrature } from './gauss-legendre.js';
import { solveLinear } from './linear-system.js';
import { normalDensity } from './normal.js';
import { requireRunLength } from './run-length.js';

export interface EwmaInDeviations {
  /** Weight of the newest observation, in [0.02, 1]. */
  readonly weight: number;
  /** Half width of the limits in standard deviations of the smoothed value, in [0.01, 10]. */
  readonly width: number;
  /** By how far the mean lies off the target, in deviations of one observation, in [-10, 10]. */
  readonly shift: number;
}

/** Nodes: some, and so many more for each weight between the limits. 400 give the same to 1e-10 (run lengths to 1,000). */
const NODES = 14;
const NODES_A_WEIGHT = 4;

/**
 * Average run length, begun at the target.
 *
 * @returns observations until the signal, that one included
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where the run length is above 1e10
 * @remarks Relative error below 1e-7 up to a run length of 1e6, below 1e-4 up to 1e10: it grows with the run length.
 */
export function ewmaRunLength(design: EwmaInDeviations): number {
  requireInDomain('weight', design.weight, 0.02, 1);
  requireInDomain('width, deviations', design.width, 0.01, 10);
  requireInDomain('shift, deviations', design.shift, -10, 10);
  const half = design.width * Math.sqrt(design.weight / (2 - design.weight));
  const count = NODES + Math.ceil((NODES_A_WEIGHT * 2 * half) / design.weight);
  const quadrature = gaussLegendre(count, -half, half);
  const lengths = runLengths(design, quadrature);
  const fromTarget = quadrature.nodes.reduce(
    (sum, to, at) => sum + kernel(design, quadrature, 0, to, at) * (lengths[at] as number),
    1,
  );
  return requireRunLength(fromTarget);
}

/** Probability, by weight, of going from one value to the node `to`. */
function kernel(
  { weight, shift }: EwmaInDeviations,
  { weights }: Quadrature,
  from: number,
  to: number,
  at: number,
): number {
  return ((weights[at] as number) / weight) * normalDensity((to - (1 - weight) * from) / weight - shift);
}

/** Run lengths from each node. */
function runLengths(design: EwmaInDeviations, quadrature: Quadrature): Float64Array {
  const { nodes } = quadrature;
  const size = nodes.length;
  const matrix = new Float64Array(size * size);
  nodes.forEach((from, row) => {
    nodes.forEach((to, at) => {
      matrix[row * size + at] = (row === at ? 1 : 0) - kernel(design, quadrature, from, to, at);
    });
  });
  return solveLinear(matrix, new Float64Array(size).fill(1));
}
