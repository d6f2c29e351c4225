/**
 * Whether a series rises or falls: Kendall's sum of its pairs.
 * Source: H. B. Mann, Econometrica 13 (1945) 245-259 (from memory); EPA QA/G-9S (2006), Mann-Kendall with ties.
 * It supposes independent values: a series that remembers looks more like a trend than it is.
 */
import { SandlarderError } from '../../errors.js';
import { requireSamples } from './checks.js';
import { normalTail } from './normal.js';
import { pairVariance, tieGroups } from './ties.js';

export interface Trend {
  /** Pairs that rise less pairs that fall. */
  readonly sum: number;
  /** Variance of the sum without a trend, ties taken off. */
  readonly variance: number;
  /** The sum brought one nearer to 0, in standard deviations; 0 where all values are equal. */
  readonly score: number;
  /** Chance, without a trend, of a sum at least so far from 0 on either side. */
  readonly probability: number;
  /** Whether the probability is counted out (no ties, at most 40 values) or from the normal distribution. */
  readonly exact: boolean;
  /** Kendall's tau-b, in [-1, 1]; absent where all values are equal. */
  readonly tau?: number;
}

const EXACT_MOST = 40;
const LEAST = 4;
/** Values: half a million pairs. */
const MOST = 1000;

/**
 * The trend of values in order of time.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES for fewer than four values; LIMIT_EXCEEDED above 1,000; OUT_OF_DOMAIN
 */
export function mannKendall(values: readonly number[]): Trend {
  requireSamples('values', values, LEAST);
  if (!(values.length <= MOST))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `mannKendall: expected at most ${MOST} values, got ${values.length}`,
    );
  const sum = kendallSum(values);
  const variance = pairVariance([...values.keys()], values);
  const score = variance > 0 ? (sum - Math.sign(sum)) / Math.sqrt(variance) : 0;
  const groups = tieGroups(values);
  const exact = groups.length === 0 && values.length <= EXACT_MOST;
  const probability = exact
    ? exactProbability(values.length, sum)
    : Math.min(1, 2 * normalTail(Math.abs(score)));
  const pairs = pairCount(values.length);
  const untied = pairs - groups.reduce((tied, count) => tied + pairCount(count), 0);
  const tau = sum / Math.sqrt(pairs * untied);
  return { sum, variance, score, probability, exact, ...(untied > 0 && { tau }) };
}

const pairCount = (count: number): number => (count * (count - 1)) / 2;

function kendallSum(values: readonly number[]): number {
  let sum = 0;
  values.forEach((value, at) => {
    for (let later = at + 1; later < values.length; later += 1)
      sum += Math.sign((values[later] as number) - value);
  });
  return sum;
}

/** Of all orders of `count` different values, the share with a sum at least so far from 0. */
function exactProbability(count: number, sum: number): number {
  let shares = Float64Array.of(1);
  for (let among = 2; among <= count; among += 1) shares = withOneMore(shares, among);
  const falling = (pairCount(count) - Math.abs(sum)) / 2;
  const oneSide = shares.slice(0, falling + 1).reduce((total, share) => total + share, 0);
  return Math.min(1, 2 * oneSide);
}

/** Shares of the orders by their falling pairs: one more value falls behind 0 to `among` - 1 others, each as likely. */
function withOneMore(shares: Float64Array, among: number): Float64Array<ArrayBuffer> {
  const next = new Float64Array(pairCount(among) + 1);
  shares.forEach((share, falling) => {
    for (let behind = 0; behind < among; behind += 1)
      next[falling + behind] = (next[falling + behind] as number) + share / among;
  });
  return next;
}
