/**
 * A straight line that up to 29 % of the points cannot carry away: the median of the slopes of all pairs.
 * Source: H. Theil (1950), P. K. Sen, J. Amer. Statist. Assoc. 63 (1968) 1379-1389 (both from memory).
 */
import { median, medianSorted } from 'simple-statistics';
import { requireInDomain, SandlarderError } from '../../errors.js';
import { requireSamples } from './checks.js';
import { normalScore } from './normal.js';
import { pairVariance } from './ties.js';

export type Point = readonly [x: number, y: number];

export interface RobustLine {
  /** Unit of y for one of x. */
  readonly slope: number;
  /** Median of y less slope times median of x: other books take the median of y - slope x instead. */
  readonly intercept: number;
  /** Bounds of the slope; absent where there are too few pairs for so much confidence. */
  readonly slopeInterval?: { readonly low: number; readonly high: number };
}

/** Points: half a million pairs, some tenths of a second. */
const POINTS_MOST = 1000;

/**
 * The line through at least two points of different x.
 *
 * @param confidence of the slope's interval, in [0.5, 0.9999]; from the normal approximation of Kendall's sum with
 * ties, which wants some ten points
 * @throws SandlarderError TOO_FEW_SAMPLES for fewer than two points or one x only; LIMIT_EXCEEDED above 1,000 points;
 * OUT_OF_DOMAIN
 */
export function theilSen(points: readonly Point[], confidence = 0.95): RobustLine {
  requireInDomain('confidence', confidence, 0.5, 0.9999);
  if (!(points.length <= POINTS_MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `theilSen: expected at most ${POINTS_MOST} points, got ${points.length}`,
    );
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  requireSamples('x', xs, 2);
  requireSamples('y', ys, 2);
  const slopes = pairSlopes(points);
  if (slopes.length === 0)
    throw new SandlarderError('TOO_FEW_SAMPLES', `theilSen: expected two different x, got ${xs[0]} only`);
  const slope = medianSorted([...slopes]);
  const interval = intervalOf(slopes, Math.sqrt(pairVariance(xs, ys)), normalScore((1 - confidence) / 2));
  return {
    slope,
    intercept: median(ys) - slope * median(xs),
    ...(interval && { slopeInterval: interval }),
  };
}

/** Slopes of all pairs with different x, ascending. */
function pairSlopes(points: readonly Point[]): Float64Array {
  const slopes = new Float64Array((points.length * (points.length - 1)) / 2);
  let count = 0;
  for (let at = 1; at < points.length; at += 1) {
    const [x, y] = points[at] as Point;
    for (let before = 0; before < at; before += 1) {
      const [otherX, otherY] = points[before] as Point;
      if (otherX !== x) slopes[count++] = (y - otherY) / (x - otherX);
    }
  }
  return slopes.subarray(0, count).sort();
}

/** Sen's interval: the slopes whose ranks lie so far from the middle. */
function intervalOf(slopes: Float64Array, deviation: number, score: number): RobustLine['slopeInterval'] {
  const low = slopes[Math.round((slopes.length - score * deviation) / 2) - 1];
  const high = slopes[Math.round((slopes.length + score * deviation) / 2)];
  return low === undefined || high === undefined ? undefined : { low, high };
}
