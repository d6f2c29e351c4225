/**
 * Whether a probe lies as deep as was said, and how deep it seems to lie, from how much of the daily swing outside
 * reaches it and how late, within a day or two of the filling.
 *
 * Logarithm of the amplitude and lag in radians are the same number in a deep solid, and count alike. What cannot be
 * known so soon is said: deep in dry sand nothing of the day is left, and between the walls of a box it comes from
 * the side.
 */
import { blocksOf, holdsPoint } from '../model/bed.js';
import type { CoveredBed } from '../watch/dampness/cover.js';
import { DAMPNESS } from '../watch/dampness/parameters.js';
import { DEVIATIONS, type ExpectedSwing, expectedSwing, HOUR_of_lag } from './filling.js';
import { type DaySwing, LEAST_AMPLITUDE_C } from './filling-swing.js';
import { lagNear, type Place } from './way-to-air.js';

export const DEPTH_VERDICTS = ['as planned', 'shallower', 'deeper', 'cannot tell'] as const;
export type DepthVerdict = (typeof DEPTH_VERDICTS)[number];

/** How deep it may lie, 95 %, cm; `high` is null where it may lie as deep as the bed, `likely` where only a bound is known. */
export interface Lies {
  readonly low: number;
  readonly likely: number | null;
  readonly high: number | null;
}

export interface DepthJudgement {
  readonly verdict: DepthVerdict;
  /** As seen; null where it is too small to be measured, and where outside there is no swing to speak of. */
  readonly share: number | null;
  readonly lag_h: number | null;
  readonly lies: Lies | null;
  /** In a sentence. */
  readonly because: string;
}

/** As deep as said is told where both ends of the range lie so near to what was said, cm or that share. Judgement. */
const NEAR_cm = 10;
const NEAR_SHARE = 0.5;

/** Steps in which depths are tried, cm. */
const STEP_cm = 0.5;

/**
 * @param place as said
 * @param outside swing in the shade outside, over the same hours as that of the probe
 */
export function judgeDepth(
  bed: CoveredBed,
  place: Place,
  outside: DaySwing,
  probe: DaySwing,
): DepthJudgement {
  if (!(outside.amplitude_C >= DAMPNESS.referenceAmplitude_C && isMeasured(outside)))
    return cannotTell(
      `the swing outside, ${brief(outside.amplitude_C)} °C, is under ${DAMPNESS.referenceAmplitude_C} °C or no clear one`,
    );
  const expected = expectedSwing(bed, place);
  return isMeasured(probe)
    ? judgeMeasured(bed, place, expected, outside, probe)
    : judgeUnmeasured(bed, place, expected, outside, probe);
}

function judgeMeasured(
  bed: CoveredBed,
  place: Place,
  expected: ExpectedSwing,
  outside: DaySwing,
  probe: DaySwing,
): DepthJudgement {
  const share = probe.amplitude_C / outside.amplitude_C;
  const lag = lagNear((probe.latest_h - outside.latest_h) / HOUR_of_lag, -Math.log(share));
  const way = (lag - Math.log(share)) / 2;
  const ofFit = Math.hypot(relative(probe), relative(outside)) / Math.SQRT2;
  const off = DEVIATIONS * Math.hypot(expected.deviation, ofFit);
  const lies = depthsThatShow(bed, place, way, ofFit);
  const lag_h = lag * HOUR_of_lag;
  const seen = `${percent(share)} of the swing outside came ${brief(lag_h)} h later; at ${brief(place.depth)} cm ${percent(expected.share.low)} to ${percent(expected.share.high)} and ${brief(expected.lag_h.low)} to ${brief(expected.lag_h.high)} h are expected`;
  const judgement = { share, lag_h, lies };
  if (way < expected.way - off) return { ...judgement, verdict: 'shallower', because: seen };
  if (way > expected.way + off) return { ...judgement, verdict: 'deeper', because: seen };
  if (isNear(lies, place.depth)) return { ...judgement, verdict: 'as planned', because: seen };
  return {
    ...judgement,
    verdict: 'cannot tell',
    because: `${bed.kind === 'box' ? 'between the walls of a box' : 'there'} a probe shows the same ${liesInWords(lies)}: ${seen}`,
  };
}

const isNear = ({ low, high }: Lies, said_cm: number): boolean => {
  const near_cm = Math.max(NEAR_cm, NEAR_SHARE * said_cm);
  return high !== null && said_cm - low <= near_cm && high - said_cm <= near_cm;
};

/** Of a swing that is lost in the noise only the most that it can be is known. */
function judgeUnmeasured(
  bed: CoveredBed,
  place: Place,
  expected: ExpectedSwing,
  outside: DaySwing,
  probe: DaySwing,
): DepthJudgement {
  const most = (probe.amplitude_C + DEVIATIONS * probe.deviation_C) / outside.amplitude_C;
  const { low } = depthsThatShow(bed, place, -Math.log(most), 0);
  const judgement = { share: null, lag_h: null, lies: { low, likely: null, high: null } };
  if (most < expected.share.low)
    return {
      ...judgement,
      verdict: 'deeper',
      because: `at most ${percent(most)} of the swing outside arrives; at ${brief(place.depth)} cm at least ${percent(expected.share.low)} is expected`,
    };
  return {
    ...judgement,
    verdict: 'cannot tell',
    because: `at ${brief(place.depth)} cm ${percent(expected.share.likely)} of the swing is expected, and what arrives is too small to be measured; so it lies ${liesInWords(judgement.lies)}`,
  };
}

/** Depths below the place at which a probe would show that way; where none would, the one that comes nearest. */
function depthsThatShow(bed: CoveredBed, { x, y }: Place, way: number, ofFit: number): Lies {
  const blocks = blocksOf(bed.steps);
  const bottom = Math.max(...blocks.map((block) => block.bottom));
  const fits: number[] = [];
  let [likely, least] = [0, Number.POSITIVE_INFINITY];
  let deepest = 0;
  for (let depth = 0; depth <= bottom && holdsPoint(blocks, x, y, depth); depth += STEP_cm) {
    const expected = expectedSwing(bed, { x, y, depth });
    const off = Math.abs(way - expected.way) / Math.hypot(expected.ofBed, ofFit);
    if (off <= DEVIATIONS) fits.push(depth);
    if (off < least) [likely, least] = [depth, off];
    deepest = depth;
  }
  const high = fits.at(-1) ?? likely;
  return { low: fits[0] ?? likely, likely, high: high === deepest ? null : high };
}

/** `from 4 to 12 cm deep`, `at least 19 cm deep`. */
export const liesInWords = ({ low, high }: Lies): string =>
  high === null
    ? `at least ${Math.floor(low)} cm deep`
    : `from ${Math.floor(low)} to ${Math.ceil(high)} cm deep`;

export const cannotTell = (because: string): DepthJudgement => ({
  verdict: 'cannot tell',
  ...{ share: null, lag_h: null, lies: null },
  because,
});

const relative = ({ deviation_C, amplitude_C }: DaySwing): number => deviation_C / amplitude_C;
const isMeasured = (swing: DaySwing): boolean =>
  swing.amplitude_C >= LEAST_AMPLITUDE_C && relative(swing) * DAMPNESS.measurable <= 1;

const brief = (value: number): string => String(Number(value.toPrecision(2)));
const percent = (share: number): string => `${brief(100 * share)} %`;
