/**
 * The share of a count with its 95 % score interval.
 *
 * Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212; method 3 of R. G. Newcombe, Statistics in Medicine 17
 * (1998) 857-872. It stays within 0 and 1 and says something where nothing, or everything, was found.
 */
import { requireInDomain } from '../errors.js';
import { normalScore } from '../watch/sequential/index.js';

/** Standard deviations to either side of the middle within which 95 % of a normal distribution lies: 1.96. */
export const DEVIATIONS_95 = normalScore(0.025);

export interface ShareInterval {
  /** 0..1, as counted. */
  readonly share: number;
  /** Ends of the 95 % interval, 0..1. */
  readonly low: number;
  readonly high: number;
}

/**
 * The share that a count is of those looked at, and between what that of all may lie.
 *
 * @param count 0 to `looked`; may be a fraction where it was computed
 * @param looked above 0
 * @param present of how many roots those looked at were drawn, at least `looked`: the interval is narrower the more of
 * them were seen, and none is left where all were (variance of drawing without replacement). Without it the interval
 * is that of a chance that all roots share, of which those looked at are few
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function wilsonInterval(
  count: number,
  looked: number,
  present: number = Number.POSITIVE_INFINITY,
): ShareInterval {
  requireInDomain('roots looked at', looked, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('count', count, 0, looked);
  requireInDomain('roots present', present, looked, Number.POSITIVE_INFINITY);
  const share = count / looked;
  const unseen = present === Number.POSITIVE_INFINITY ? 1 : unseenShare(looked, present);
  const spread = (DEVIATIONS_95 ** 2 * unseen) / looked;
  const middle = (share + spread / 2) / (1 + spread);
  const half = Math.sqrt(spread * (share * (1 - share) + spread / 4)) / (1 + spread);
  // Exact at the ends, where the two are the same number but for their last digits.
  return { share, low: share === 0 ? 0 : middle - half, high: share === 1 ? 1 : middle + half };
}

/** By how much the variance is less than that of drawing with replacement. */
const unseenShare = (looked: number, present: number): number =>
  present <= 1 ? 0 : (present - looked) / (present - 1);
