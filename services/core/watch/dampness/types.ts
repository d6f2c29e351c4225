/**
 * The seam of the watch for damp: what it is given for one bed and one hour, and what it finds.
 *
 * Every value has passed the judgement of reading quality: bad samples are left out already.
 */
import type { Action, Evidence, Place } from '../../model/alarm.js';
import type { Thresholds } from '../../model/threshold.js';
import type { Dampness as SandClass } from '../../physics/index.js';
import type { ProbeHour, Sample } from '../watch.js';
import type { CoveredBed } from './cover.js';

/** A probe that stands in the bed, whether or not it measured anything in the hour. */
export interface DampnessProbe {
  readonly id: string;
  /** Centimetres from the north-west corner of the opening, depth from the top of the sand. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly hour: ProbeHour;
  /** The hour's usable samples in order of time: a wet front is told from a failing probe by them. */
  readonly samples?: readonly Sample[];
  /** Half width within which the hour's humidity lies, as reading quality states it, %RH. */
  readonly humidityUncertainty_RH?: number;
  /** Reading quality cannot tell yet whether water or a failing sensor brought the humidity to its end. */
  readonly wetOrBroken?: boolean;
}

export interface DampnessHour {
  /** Start of the hour, ms. */
  readonly hour: number;
  readonly bed: CoveredBed;
  /** All probes that stand in the bed during the hour; one that is missing is forgotten. */
  readonly probes: readonly DampnessProbe[];
  /** The air outside, in the shade. */
  readonly shade?: ProbeHour;
  /** What was done to the bed in this hour, the graver of several. */
  readonly disturbed?: 'opened' | 'repacked';
  readonly thresholds: Thresholds;
}

/**
 * What a finding rests on: the humidity of the pore air, the daily swing that arrives, water that reached a probe,
 * a probe that says so but may have failed, a dew point above the sand's temperature.
 */
export type DampSign = 'humidity' | 'swing' | 'front' | 'front-or-broken' | 'temperature-step' | 'dew-point';

/** A condition that stands at the end of the hour. It is there in every hour from its raising to its clearing. */
export interface DampFinding {
  readonly kind: 'damp' | 'wetting' | 'condensation';
  readonly action: Exclude<Action, 'none'>;
  readonly sign: DampSign;
  readonly probe: string;
  /** Event time at which it was established, ms. */
  readonly since: number;
  readonly evidence: Evidence;
  readonly place: Place;
}

/** What the daily swing that arrives at a probe says of the sand on its way. */
export interface SwingReading {
  /** Share of the swing outside (or at `via`) that is left at the probe. */
  readonly swingShare: number;
  /** `shade`, or the id of the shallower probe that it is measured against. */
  readonly via: string;
  readonly diffusivity_m2_s: number;
  /** Standard uncertainty, as the factor by which the diffusivity may be off: 1.3 is +30 %, -23 %. */
  readonly uncertaintyFactor: number;
  /** True where so little arrives that the diffusivity is no more than an upper bound. */
  readonly atMost: boolean;
  /** The likeliest class and its probability; `unknown` where an upper bound leaves it open. */
  readonly class: SandClass | 'unknown';
  readonly probability: number;
  /** Probability of damp or wet; no more than an upper bound where `atMost`. */
  readonly dampProbability: number;
}

/** How a probe stands after the hour; a number that is not known is absent. */
export interface ProbeDampness {
  /** Median of the last day, %RH. */
  readonly level_RH?: number;
  /** The level above that of the probe's own sound weeks, %RH. */
  readonly rise_RH?: number;
  readonly slope_RH_per_day?: number;
  readonly swing?: SwingReading;
}

export interface Dampness {
  /** The gravest first, of one gravity the oldest first. */
  readonly findings: readonly DampFinding[];
  readonly probes: ReadonlyMap<string, ProbeDampness>;
}
