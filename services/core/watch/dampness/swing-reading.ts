/**
 * From the way in damping depths to a diffusivity, and from that to dry, damp or wet with its probability.
 *
 * Roof, film and walls change the way by an unknown but steady amount: once a bed's own dry way is learned, what
 * counts is how much shorter the way has become.
 */
import { DAY_s, dampingDepth_m, dampnessLimits, mediumOfBed } from '../../physics/index.js';
import { normalTail } from '../sequential/index.js';
import { DAMPNESS } from './parameters.js';
import type { Way } from './swing-way.js';
import type { SwingReading } from './types.js';

/** What was learned of a way while the bed was sound. */
export interface LearnedWay {
  readonly way: number;
  readonly share: number;
}

export interface SwingJudgement {
  readonly reading: SwingReading;
  /** Whether this asks for a look. */
  readonly asks: boolean;
}

const LIMITS = dampnessLimits(DAMPNESS.rootShare);
const DRY_m2_s = mediumOfBed(DAMPNESS.porosity, 0, DAMPNESS.rootShare).diffusivity_m2_s;

/** Diffusivity in which a damping depth is one metre long, m2/s: it grows with the square. */
const AT_ONE_METRE_m2_s = 1 / dampingDepth_m(1e-6, DAY_s) ** 2 / 1e6;

/** A normal distribution of the logarithm of a diffusivity. */
interface LogDiffusivity {
  readonly mean: number;
  readonly deviation: number;
}

export interface SwingPlace {
  readonly via: string;
  /** Of sand between the reference and the probe, m. */
  readonly distance_m: number;
  /** Of the probe below the top of the sand, cm. */
  readonly depth_cm: number;
}

/** Undefined where the wave arrives as through no sand: such a probe lies bare or is misplaced. */
export function judgeSwing(
  way: Way,
  place: SwingPlace,
  learned: LearnedWay | undefined,
  shareThreshold: number,
): SwingJudgement | undefined {
  if (!(way.way > 0.1) || (place.depth_cm >= DAMPNESS.shareDepth_cm && way.share >= DAMPNESS.bareShare))
    return undefined;
  const now = learned
    ? againstLearned(way, place, learned.way)
    : byItself(way.way, way.fit, way.model, place);
  if (!(Math.exp(now.mean) <= DAMPNESS.mostOfSand_m2_s)) return undefined;
  const dampProbability = above(now, LIMITS.damp_m2_s);
  const reading = readingOf(way, place, now, dampProbability);
  const likely = dampProbability >= DAMPNESS.likely;
  const much =
    place.via === 'shade' && place.depth_cm >= DAMPNESS.shareDepth_cm && way.share >= shareThreshold;
  const asks = learned ? isShorter(way, learned) && (likely || much) : likely && much;
  return { reading, asks: asks && !way.atMost };
}

/** The diffusivity that a way alone gives. */
function byItself(way: number, fit: number, model: number, { distance_m }: SwingPlace): LogDiffusivity {
  const mean = Math.log(AT_ONE_METRE_m2_s) + 2 * Math.log(distance_m / way);
  const ofDistance = DAMPNESS.depth_cm / 100 / distance_m;
  return { mean, deviation: 2 * Math.hypot(Math.hypot(fit, model) / way, ofDistance) };
}

/** The diffusivity while learned, drawn towards dry sand as far as it may have been dry, times the change since. */
function againstLearned(way: Way, place: SwingPlace, learnedWay: number): LogDiffusivity {
  const alone = byItself(learnedWay, 0, way.model, place);
  const dry = { mean: Math.log(DRY_m2_s), deviation: DAMPNESS.drySpread };
  const before = above(alone, LIMITS.damp_m2_s) < DAMPNESS.sureRise ? together(alone, dry) : alone;
  const change = changeSince(way, learnedWay);
  return { mean: before.mean + change.mean, deviation: Math.hypot(before.deviation, change.deviation) };
}

/** Two independent estimates of one thing, weighed by their variances. */
function together(one: LogDiffusivity, other: LogDiffusivity): LogDiffusivity {
  const [a, b] = [one.deviation ** -2, other.deviation ** -2];
  return { mean: (a * one.mean + b * other.mean) / (a + b), deviation: (a + b) ** -0.5 };
}

/** The logarithm of the diffusivity now over that while learned. */
function changeSince({ way, fit }: Way, learnedWay: number): LogDiffusivity {
  const deviation = 2 * Math.hypot(fit / way, DAMPNESS.steadiness);
  return { mean: 2 * Math.log(learnedWay / way), deviation };
}

function isShorter(way: Way, learned: LearnedWay): boolean {
  return above(changeSince(way, learned.way), DAMPNESS.riseFactor) >= DAMPNESS.sureRise;
}

/** Probability of lying above a limit. */
const above = ({ mean, deviation }: LogDiffusivity, limit: number): number =>
  normalTail((Math.log(limit) - mean) / deviation);

function readingOf(
  { share, atMost }: Way,
  { via }: SwingPlace,
  now: LogDiffusivity,
  dampProbability: number,
): SwingReading {
  const wet = above(now, LIMITS.wet_m2_s);
  const chances = [
    ['dry', 1 - dampProbability],
    ['damp', dampProbability - wet],
    ['wet', wet],
  ] as const;
  const [likeliest, probability] = chances.reduce((best, next) => (next[1] > best[1] ? next : best));
  const open = atMost && likeliest !== 'dry';
  return {
    swingShare: toDigits(share),
    via,
    diffusivity_m2_s: toDigits(Math.exp(now.mean)),
    uncertaintyFactor: toDigits(Math.exp(now.deviation)),
    atMost,
    class: open ? 'unknown' : likeliest,
    probability: toDigits(open ? 0 : probability),
    dampProbability: toDigits(dampProbability),
  };
}

const toDigits = (value: number): number => Number(value.toPrecision(3));
