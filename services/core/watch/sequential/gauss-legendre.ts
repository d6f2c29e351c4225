/** Gauss-Legendre quadrature: exact for polynomials up to degree 2 count - 1. */
import { requireInDomain, SandlarderError } from '../../errors.js';

export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const NEWTON_CAP = 50;
const COUNT_MOST = 500;

/**
 * Nodes and weights on [low, high].
 *
 * @param count of nodes, a whole number in [2, 500]
 * @throws SandlarderError OUT_OF_DOMAIN; LIMIT_EXCEEDED where a node is not settled in 50 steps
 * @remarks Roots of the Legendre polynomial by Newton, from the cosines that approximate them
 * (M. Abramowitz & I. A. Stegun, 25.4.29 and 22.16.6; clauses from memory).
 */
export function gaussLegendre(count: number, low: number, high: number): Quadrature {
  requireInDomain('count', Number.isInteger(count) ? count : Number.NaN, 2, COUNT_MOST);
  requireInDomain('high', high, low, Number.MAX_VALUE);
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const half = (high - low) / 2;
  for (let at = 0; at < count; at += 1) {
    const { root, slope } = legendreRoot(count, Math.cos((Math.PI * (at + 0.75)) / (count + 0.5)));
    nodes[count - 1 - at] = low + half * (1 + root);
    weights[count - 1 - at] = (2 * half) / ((1 - root * root) * slope * slope);
  }
  return { nodes, weights };
}

function legendreRoot(degree: number, guess: number): { root: number; slope: number } {
  let root = guess;
  for (let step = 0; step < NEWTON_CAP; step += 1) {
    const { value, slope } = legendreAt(degree, root);
    root -= value / slope;
    if (Math.abs(value / slope) < 1e-15) return { root, slope: legendreAt(degree, root).slope };
  }
  throw new SandlarderError('LIMIT_EXCEEDED', `gaussLegendre: not settled in ${NEWTON_CAP} steps at ${root}`);
}

/** The Legendre polynomial and its slope, by the three-term recurrence. */
function legendreAt(degree: number, x: number): { value: number; slope: number } {
  let before = 1;
  let value = x;
  for (let n = 2; n <= degree; n += 1) {
    const next = ((2 * n - 1) * x * value - (n - 1) * before) / n;
    before = value;
    value = next;
  }
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}
