/** The share of the daily swing outside that arrives at probes, day by day, as the watch for damp sees it. */
import {
  DAY_s,
  dampingDepth_m,
  dampnessLimits,
  mediumOfBed,
  waveAmplitudeShare,
} from '../../physics/index.js';
import type { CoveredBed } from './cover.js';
import { amplitude_C, type DailyWave, waveFit } from './daily-wave.js';
import type { Hours } from './hours.js';
import { DAMPNESS } from './parameters.js';
import { isClear, wayBetween } from './swing-way.js';

/** Hours that one share rests on. */
export const SHARE_HOURS = DAMPNESS.wave_h;

/** Centimetres of depth from which the share is held against `damp_swing_share`. */
export const SHARE_DEPTH_cm = DAMPNESS.shareDepth_cm;

/**
 * Why there is no share.
 * - `no-shade`: too few hours were measured in the shade
 * - `little-swing`: outside it swings too little to tell, or has no clear daily wave
 * - `too-few-hours`: too few hours were measured by the probe since it was placed or the bed was opened
 * - `handled`: a jump says that sand or probe were handled
 */
export const NO_SHARE = ['no-shade', 'little-swing', 'too-few-hours', 'handled'] as const;
export type NoShare = (typeof NO_SHARE)[number];

export interface DayShare {
  /** Of the amplitude outside; an upper bound where `atMost`; null where it is not known. */
  readonly share: number | null;
  /** Expanded uncertainty of the share by the two fits, k = 2; null for a bound. */
  readonly uncertainty: number | null;
  readonly atMost: boolean;
  readonly because: NoShare | null;
}

/** Parallel columns. */
export interface DailyShares {
  /** Ends of the days, ms. */
  readonly time: readonly number[];
  readonly share: readonly (number | null)[];
  readonly uncertainty: readonly (number | null)[];
  readonly atMost: readonly boolean[];
  readonly because: readonly (NoShare | null)[];
}

const none = (because: NoShare): DayShare => ({ share: null, uncertainty: null, atMost: false, because });

/**
 * Shares of one day, by probe.
 *
 * @param end end of the newest hour, ms
 * @param shade hourly means of the five days to then, °C; null for an hour without
 * @param probes the same of each probe
 */
export function sharesOfDay(
  end: number,
  shade: Readonly<Hours>,
  probes: readonly Readonly<Hours>[],
  kind: CoveredBed['kind'],
): DayShare[] {
  const waveIn = waveFit(end);
  if (!isEnough(shade)) return probes.map(() => none('no-shade'));
  const outside = waveIn(shade);
  if (!outside || !(amplitude_C(outside) >= DAMPNESS.referenceAmplitude_C) || !isClear(outside))
    return probes.map(() => none('little-swing'));
  return probes.map((hours) => {
    if (!isEnough(hours)) return none('too-few-hours');
    const wave = waveIn(hours);
    return wave ? shareOf(outside, wave, kind) : none('handled');
  });
}

const isEnough = (hours: Readonly<Hours>): boolean =>
  hours.filter((value) => value !== null).length >= DAMPNESS.waveNeeds_h;

function shareOf(outside: DailyWave, wave: DailyWave, kind: CoveredBed['kind']): DayShare {
  const way = wayBetween(outside, wave, DAMPNESS.beside[kind]);
  if (!way) return none('little-swing');
  const { share, fit, atMost } = way;
  // The way is the mean of two estimates that are equally uncertain: the share alone is less well known.
  const uncertainty = atMost ? null : toDigits(2 * share * fit * Math.SQRT2);
  return { share: toDigits(share), uncertainty, atMost, because: null };
}

/** What sand lets through of the daily swing outside, as shares of its amplitude. */
export interface SharesThrough {
  /** Dry sand. */
  readonly dry: number;
  /** The least of damp, and of wet sand. */
  readonly dampFrom: number;
  readonly wetFrom: number;
  /** Each may be off by this factor either way, k = 2: roof, film, walls, and the depth as it was written down. */
  readonly factor: number;
}

const { porosity, rootShare } = DAMPNESS;
const LIMITS = dampnessLimits(rootShare);
const DRY_m = dampingDepth_m(mediumOfBed(porosity, 0, rootShare).diffusivity_m2_s, DAY_s);
const DAMP_m = dampingDepth_m(LIMITS.damp_m2_s, DAY_s);
const WET_m = dampingDepth_m(LIMITS.wet_m2_s, DAY_s);

/**
 * Source: the wave in a deep solid (Carslaw & Jaeger, physics/periodic-wave), and what lies between air and sand as
 * the watch for damp has it. From 1 % of water by mass sand counts as damp, from 2 % as wet: judgement.
 *
 * @param cover_cm of sand, 0 to 300
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function sharesThrough(cover_cm: number, kind: CoveredBed['kind']): SharesThrough {
  const { attenuation, deviation } = DAMPNESS.beside[kind];
  const through = (damping_m: number): number =>
    toDigits(waveAmplitudeShare(cover_cm / 100, damping_m) * Math.exp(-attenuation));
  const ofDepth = DAMPNESS.depth_cm / 100 / DRY_m;
  return {
    dry: through(DRY_m),
    dampFrom: through(DAMP_m),
    wetFrom: through(WET_m),
    factor: toDigits(Math.exp(2 * Math.hypot(deviation, ofDepth))),
  };
}

const toDigits = (value: number): number => Number(value.toPrecision(3));
