/**
 * How long a probe will still take to come to rest, from the curve that it has drawn so far.
 *
 * A small body in a bath closes its distance by the same share in each stretch of time: v = end + gap exp(-t / T).
 * For each time constant of a grid, end and gap are linear least squares; the best one counts if the data tell it
 * from others. Anything else (a steady drift, a jump, noise) gives "unknown" rather than a guess.
 */
import { mean, median } from 'simple-statistics';
import type { BenchReading as Reading } from './settling-window.js';

/** s: from a bare sensor in water to a bulky one in a closed jar. */
const CONSTANT_LEAST_s = 10;
const CONSTANT_GREATEST_s = 3600;
/** Steps of 5 %. */
const STEPS = 121;

/** Readings and s: what came before does not follow the same curve (the walk to the bath, the probe's own case). */
const TAIL_READINGS_MOST = 400;
const TAIL_s = 3600;
const READINGS_LEAST = 8;

/** 95 % of chi-squared with one degree of freedom: how much the best sum of squares may grow. */
const ONE_PARAMETER = 3.84;
/** The constant is known if its 95 % interval spans no more than this ratio. */
const RATIO_MOST = 2;

/** Residuals beyond this many robust deviations are left out, once. */
const FAR = 5;
const DEVIATION_PER_MAD = 1.4826;

/** Nobody waits longer at a bench: s. */
const WAIT_MOST_s = 7200;

interface Curve {
  readonly constant_s: number;
  /** Value at rest less value at the last reading. */
  readonly gap: number;
  readonly squares: number;
  readonly residuals: readonly number[];
}

/**
 * Time from the last reading until a window of readings has a slope below the limit; absent where it is unknown or
 * more than two hours.
 *
 * @param readings in order of time
 * @param slopeMost_perMinute unit/min, above 0
 * @param window_s the window that will be judged, s: it must have passed the steep part too
 */
export function remaining_s(
  readings: readonly Reading[],
  slopeMost_perMinute: number,
  window_s: number,
): number | undefined {
  const curve = curveOf(tailOf(readings));
  if (curve === undefined) return undefined;
  const slope_perMinute = (Math.abs(curve.gap) / curve.constant_s) * 60;
  // The line through a window has the curve's slope at about its middle. Half the limit is left to the uncertainty.
  const left_s = curve.constant_s * Math.log((2 * slope_perMinute) / slopeMost_perMinute) + window_s / 2;
  return left_s <= WAIT_MOST_s ? Math.max(0, left_s) : undefined;
}

function tailOf(readings: readonly Reading[]): readonly Reading[] {
  const last = readings.at(-1)?.time ?? 0;
  return readings.filter(({ time }) => last - time <= TAIL_s * 1000).slice(-TAIL_READINGS_MOST);
}

function curveOf(tail: readonly Reading[]): Curve | undefined {
  const first = fitted(tail);
  if (first === undefined) return undefined;
  const off = first.curve.residuals.map(Math.abs);
  const limit = FAR * DEVIATION_PER_MAD * median(off);
  const kept = limit > 0 ? tail.filter((_, at) => (off[at] as number) <= limit) : tail;
  const { curve, isKnown } = (kept.length < tail.length ? fitted(kept) : first) ?? first;
  return isKnown ? curve : undefined;
}

function fitted(tail: readonly Reading[]): { curve: Curve; isKnown: boolean } | undefined {
  if (tail.length < READINGS_LEAST) return undefined;
  const ratio = (CONSTANT_GREATEST_s / CONSTANT_LEAST_s) ** (1 / (STEPS - 1));
  const curves = Array.from({ length: STEPS }, (_, step) => curveFor(tail, CONSTANT_LEAST_s * ratio ** step));
  const best = curves.reduce((one, other) => (other.squares < one.squares ? other : one));
  const allowed = best.squares * (1 + ONE_PARAMETER / (tail.length - 3));
  const isLikely = curves.map(({ squares }) => squares <= allowed);
  const low = isLikely.indexOf(true);
  const high = isLikely.lastIndexOf(true);
  // At an end of the grid the constant may as well lie beyond it: a jump at the short end, a steady drift at the long.
  const isInside = low > 0 && high < STEPS - 1;
  return { curve: best, isKnown: isInside && ratio ** (high - low) <= RATIO_MOST };
}

/** Least squares of end and gap for one time constant. */
function curveFor(tail: readonly Reading[], constant_s: number): Curve {
  const last = (tail.at(-1) as Reading).time;
  // Scaled to 1 at the first reading, since exp(3600 / 10) would swamp the sums.
  const first = (tail[0] as Reading).time;
  const shares = tail.map(({ time }) => Math.exp((first - time) / 1000 / constant_s));
  const meanShare = mean(shares);
  const meanValue = mean(tail.map(({ value }) => value));
  let square = 0;
  let product = 0;
  shares.forEach((share, at) => {
    square += (share - meanShare) ** 2;
    product += (share - meanShare) * ((tail[at] as Reading).value - meanValue);
  });
  const gapAtFirst = product / square;
  const residuals = tail.map(
    ({ value }, at) => value - meanValue - gapAtFirst * ((shares[at] as number) - meanShare),
  );
  return {
    constant_s,
    gap: -gapAtFirst * Math.exp((first - last) / 1000 / constant_s),
    squares: residuals.reduce((sum, residual) => sum + residual ** 2, 0),
    residuals,
  };
}
