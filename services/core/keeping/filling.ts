/**
 * Whether a probe lies as deep as the plan says, from how much of the daily swing outside reaches it and how late,
 * within a day or two of the filling.
 *
 * Source: the wave in a deep solid (Carslaw & Jaeger, physics/periodic-wave); what lies between the air and the sand,
 * and how far beds differ, as the watch for damp has them. Logarithm of the amplitude and lag in radians are the same
 * number there, and count alike. Deep in dry sand so little of the swing is left that nothing can be told: at 30 cm
 * about 1 %.
 */
import { requireInDomain } from '../errors.js';
import { DAY_s, dampingDepth_m, mediumOfBed, waveAmplitudeShare, waveLag_s } from '../physics/index.js';
import { DAMPNESS } from '../watch/dampness/parameters.js';
import { type DaySwing, LEAST_AMPLITUDE_C } from './filling-swing.js';

export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface ExpectedSwing {
  readonly depth_cm: number;
  /** Share of the amplitude outside that reaches the probe. */
  readonly share: Range;
  /** By how much the warmest time of day is later than outside, h; may exceed a day. */
  readonly lag_h: Range;
  /** Damping depths from the air to the probe, in one number for both, and its standard uncertainty. */
  readonly way: number;
  readonly deviation: number;
}

export type BedKind = keyof typeof DAMPNESS.beside;

/** Standard deviations to either side of the likely value: 95 %. */
const DEVIATIONS = 2;

const HOUR_of_lag = 24 / (2 * Math.PI);

/**
 * What a probe shows of the daily swing outside if it lies so deep in dry sand.
 *
 * @param depth_cm below the top of the sand, 0 to 300
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function expectedSwing(depth_cm: number, kind: BedKind): ExpectedSwing {
  requireInDomain('depth, cm,', depth_cm, 0, 300);
  const { porosity, rootShare, beside, drySpread } = DAMPNESS;
  const damping_m = dampingDepth_m(mediumOfBed(porosity, 0, rootShare).diffusivity_m2_s, DAY_s);
  const depth_m = depth_cm / 100;
  const inSand = depth_m / damping_m;
  const { attenuation, lag, deviation: above } = beside[kind];
  const ofDepth = DAMPNESS.depth_cm / 100 / damping_m;
  // A damping depth grows with the root of the diffusivity.
  const deviation = Math.hypot((inSand * drySpread) / 2, ofDepth, above);
  const share = waveAmplitudeShare(depth_m, damping_m) * Math.exp(-attenuation);
  const lag_h = waveLag_s(depth_m, damping_m, DAY_s) / 3600 + lag * HOUR_of_lag;
  const off = DEVIATIONS * deviation;
  return {
    depth_cm,
    share: { low: share * Math.exp(-off), likely: share, high: Math.min(1, share * Math.exp(off)) },
    lag_h: {
      low: Math.max(0, lag_h - off * HOUR_of_lag),
      likely: lag_h,
      high: lag_h + off * HOUR_of_lag,
    },
    way: inSand + (attenuation + lag) / 2,
    deviation,
  };
}

export const DEPTH_VERDICTS = ['as planned', 'shallower', 'deeper', 'cannot tell'] as const;
export type DepthVerdict = (typeof DEPTH_VERDICTS)[number];

export interface DepthJudgement {
  readonly verdict: DepthVerdict;
  /** As seen; null where it is too small to be measured, and where outside there is no swing to speak of. */
  readonly share: number | null;
  readonly lag_h: number | null;
  /** In a sentence. */
  readonly because: string;
}

/**
 * What the swing that was seen says of the depth.
 *
 * @param outside swing in the shade outside, over the same hours as that of the probe
 */
export function judgeDepth(expected: ExpectedSwing, outside: DaySwing, probe: DaySwing): DepthJudgement {
  if (!(outside.amplitude_C >= DAMPNESS.referenceAmplitude_C && isMeasured(outside)))
    return cannotTell(
      `the swing outside, ${brief(outside.amplitude_C)} °C, is under ${DAMPNESS.referenceAmplitude_C} °C or no clear one`,
    );
  if (!isMeasured(probe)) return judgeUnmeasured(expected, outside, probe);
  const share = probe.amplitude_C / outside.amplitude_C;
  const lag_h = lagNear((probe.latest_h - outside.latest_h + 48) % 24, -Math.log(share) * HOUR_of_lag);
  const way = (-Math.log(share) + lag_h / HOUR_of_lag) / 2;
  const ofFit = Math.hypot(relative(probe), relative(outside)) / Math.SQRT2;
  const off = DEVIATIONS * Math.hypot(expected.deviation, ofFit);
  const verdict = way < expected.way - off ? 'shallower' : way > expected.way + off ? 'deeper' : 'as planned';
  return {
    verdict,
    share,
    lag_h,
    because: `${percent(share)} of the swing outside came ${brief(lag_h)} h later; at ${brief(expected.depth_cm)} cm ${percent(expected.share.low)} to ${percent(expected.share.high)} and ${brief(expected.lag_h.low)} to ${brief(expected.lag_h.high)} h are expected`,
  };
}

/** Of a swing that is lost in the noise only the most that it can be is known. */
function judgeUnmeasured(expected: ExpectedSwing, outside: DaySwing, probe: DaySwing): DepthJudgement {
  const most = (probe.amplitude_C + DEVIATIONS * probe.deviation_C) / outside.amplitude_C;
  if (!(most < expected.share.low))
    return cannotTell(
      `at ${brief(expected.depth_cm)} cm ${percent(expected.share.likely)} of the swing is expected, and it is too small to be measured`,
    );
  return {
    verdict: 'deeper',
    share: null,
    lag_h: null,
    because: `at most ${percent(most)} of the swing outside arrives; at ${brief(expected.depth_cm)} cm at least ${percent(expected.share.low)} is expected`,
  };
}

const cannotTell = (because: string): DepthJudgement => ({
  verdict: 'cannot tell',
  share: null,
  lag_h: null,
  because,
});

const relative = ({ deviation_C, amplitude_C }: DaySwing): number => deviation_C / amplitude_C;
const isMeasured = (swing: DaySwing): boolean =>
  swing.amplitude_C >= LEAST_AMPLITUDE_C && relative(swing) * DAMPNESS.measurable <= 1;

/** Of the lags that differ by whole days, the one that fits the amplitude best. */
const lagNear = (lag_h: number, byShare_h: number): number =>
  lag_h + 24 * Math.round((byShare_h - lag_h) / 24);

const brief = (value: number): string => String(Number(value.toPrecision(2)));
const percent = (share: number): string => `${brief(100 * share)} %`;
