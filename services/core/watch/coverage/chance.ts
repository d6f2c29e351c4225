/** How likely the watch is to have asked to unpack, from what it would weigh on average. */
import { normalScore, normalTail } from '../sequential/index.js';
import { CONTROL_SPEAKS, OTHERS, OVER_CONTROL, OVER_FAULT, verdictOn } from '../warmth/verdict.js';
import type { Tried } from './trial.js';

/** Shares in which what a source adds is taken: the middles of so many equal parts of what may be. */
const PARTS = 12;
const SCORES = Array.from({ length: PARTS }, (_, part) => normalScore((part + 0.5) / PARTS));

/** Chances below this are not looked at more closely: it is a blind spot. */
const FAINT = 0.02;

export interface Asked {
  readonly tried: Tried;
  /** The statistic for sources that cool; asked for only where it matters. */
  readonly mirror: () => number;
  /** By probe: share by which what a source adds there is uncertain. */
  readonly uncertain: Float64Array;
  /** How much probes scatter differs from bed to bed: deviation of its logarithm. */
  readonly unlike: number;
  /** Limit of the logarithm of the Shiryaev-Roberts statistic. */
  readonly limit: number;
  /** Step in which the watch is asked. */
  readonly step: number;
}

export interface Chance {
  /** That it is told to be unpacked. */
  readonly told: number;
  /** The same, if it were neither like its mirror image, sand that cools elsewhere, nor too old for its power. */
  readonly plain: number;
}

/**
 * Standard deviations by which a log likelihood ratio passes what is needed of it.
 *
 * Under a source it is normal about its mean with twice that mean as its variance: the root of twice it spreads by one.
 * It grows with the square of what the source adds.
 */
const sigmas = (mean: number, needed: number, adds: number): number =>
  adds * Math.sqrt(2 * Math.max(0, mean)) - Math.sqrt(2 * needed);

/**
 * A bed that is unlike the nominal one, and probes elsewhere than said, make more or less of a mirror image: deviation of
 * what a source outweighs it by, in roots of the source's own statistic. Judgement, by the likelihood of what became of 224
 * drawn seasons: with none, sources no likelier than their mirror image were told more often than it said.
 */
const UNLIKE_CONTROL = 0.5;

/** As `sigmas`, for what a source outweighs the control by. */
function sigmasOver(mean: number, source: number, adds: number): number {
  if (mean === Number.POSITIVE_INFINITY) return mean;
  // (a - b) / ((sqrt(2 a) + sqrt(2 b)) / 2) = sqrt(2 a) - sqrt(2 b)
  const noise = (adds * Math.sqrt(2 * Math.max(0, mean)) + Math.sqrt(2 * OVER_CONTROL)) / 2;
  return (
    (mean * adds ** 2 - OVER_CONTROL) /
    Math.hypot(noise, UNLIKE_CONTROL * adds * Math.sqrt(Math.max(0, source)))
  );
}

const below = (score: number): number => (score > Number.NEGATIVE_INFINITY ? normalTail(-score) : 0);

/**
 * Chance over the noise of the readings, over where the probes truly are and how the bed truly conducts, and over how
 * much its probes scatter: what a source adds is uncertain by a share, taken as a deviation of its logarithm. It goes
 * with the root of one over the scatter.
 */
export function chanceOf({ tried, mirror, uncertain, unlike, limit, step }: Asked): Chance {
  const { best, source, others } = tried;
  if (!best) return { told: 0, plain: 0 };
  const overFault = best.ratio - (tried.fault?.ratio ?? 0);
  const share = Math.hypot(shareOf(tried, uncertain), unlike / 2);
  const over = (overControl: number): number =>
    meanOver(share, (adds) => {
      const alone = sigmas(overFault, OVER_FAULT, adds);
      const together = Math.min(sigmas(others, OTHERS, adds), sigmas(overFault, 0, adds));
      const enough = Math.min(sigmas(source, limit, adds), Math.max(alone, together));
      return below(Math.min(enough, sigmasOver(overControl, source, adds)));
    });
  const plain = over(Number.POSITIVE_INFINITY);
  if (!mayBeOne(tried, step)) return { told: 0, plain };
  return { told: plain < FAINT ? plain : over(overControlOf(tried, mirror())), plain };
}

/** By how much it outweighs sources that cool, where those say anything. */
function overControlOf({ source, middle }: Tried, mirror: number): number {
  const control = mirror + source - middle;
  return control > CONTROL_SPEAKS ? middle - mirror : Number.POSITIVE_INFINITY;
}

function meanOver(share: number, chance: (adds: number) => number): number {
  return SCORES.reduce((sum, score) => sum + chance(Math.exp(share * score)), 0) / PARTS;
}

/** Of what a source adds at all probes together, as a share: each probe counts by its part of the information. */
function shareOf({ information }: Tried, uncertain: Float64Array): number {
  const all = information.reduce((sum, value) => sum + value, 0);
  return Math.hypot(...information.map((value, at) => value * (uncertain[at] as number))) / all;
}

/** Whether a source of such a power and age is taken for one at all, however plain it is. */
function mayBeOne({ best }: Tried, step: number): boolean {
  const evidence = {
    ...{
      source: Number.POSITIVE_INFINITY,
      control: Number.NEGATIVE_INFINITY,
      without: Number.POSITIVE_INFINITY,
      others: Number.POSITIVE_INFINITY,
    },
    ...{ best, fault: undefined },
  };
  const rates = { unpack_per_bed_month: 1, check_per_bed_month: 1 };
  return (
    verdictOn({ evidence, blind: false, rates, step, isUnsound: () => false, isDoubted: () => false }) ===
    'unpack'
  );
}
