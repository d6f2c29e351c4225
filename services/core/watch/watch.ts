/**
 * The seam of the watch: what it is given, hour by hour of event time, and what it answers.
 *
 * A watch is a pure function of a bed's description, its hours in order and its inspections. It knows no clock,
 * file, socket or database. Whoever runs it may stop at any hour, keep `checkpoint()`, and go on from it later:
 * the answers are the same.
 */
import type { Action, AlarmKind, Evidence, Place, Priority } from '../model/alarm.js';
import type { Inspection } from '../model/inspection.js';
import type { Bed, BedPlacement } from '../model/site.js';
import type { Thresholds } from '../model/threshold.js';

/** Mean and range of the usable values of one quantity in one hour. */
export interface HourSummary {
  readonly count: number;
  readonly mean: number;
  readonly min: number;
  readonly max: number;
}

/** What a probe measured in one hour; a quantity without a usable value is absent. */
export interface ProbeHour {
  readonly temperature?: HourSummary;
  readonly humidity?: HourSummary;
}

/** One hour of one bed. */
export interface BedHour {
  /** Start of the hour, ms. */
  readonly hour: number;
  /** By probe id: the probes that were placed in the bed during the whole hour and measured something. */
  readonly probes: ReadonlyMap<string, ProbeHour>;
  /** The shade probes of the site together; absent where there is none or it measured nothing. */
  readonly shade?: ProbeHour;
  /** What was inspected in this hour, in order of time. */
  readonly inspections: readonly Inspection[];
}

/** What a watch knows of a bed beforehand. */
export interface WatchedBed {
  readonly bed: Bed;
  readonly thresholds: Thresholds;
  /** By probe id: the placements in this bed, in order of time. */
  readonly placements: ReadonlyMap<string, readonly BedPlacement[]>;
}

/** Which alarm: at most one episode of a kind and action is open in a bed at a time. */
export interface Condition {
  readonly kind: AlarmKind;
  readonly action: Action;
}

export type Change =
  | (Condition & {
      readonly type: 'raise';
      readonly priority: Priority;
      readonly evidence: Evidence;
      readonly place: Place | null;
    })
  | (Condition & { readonly type: 'clear' });

/** How a probe's hour compares with a sound bed; a number that is not known yet is absent. */
export interface Judgement {
  /** What the probe would show in a sound bed, °C. */
  readonly expected_C?: number;
  /** Half width of the band around it in which a sound bed's probe stays, °C. */
  readonly band_C?: number;
  /** The probe's temperature less the expected one, °C. */
  readonly excess_C?: number;
}

export interface StepResult {
  /** In the order in which they happened; the event time of all of them is the end of the hour. */
  readonly changes: readonly Change[];
  readonly judgements: ReadonlyMap<string, Judgement>;
}

/** How a bed stands after its last hour, in words for people. */
export interface Standing {
  /** What the judgement rests on, such as "shade probe and neighbours" or "its own history: no shade probe". */
  readonly basis: string;
  /** True until there is history enough to judge by. */
  readonly learning: boolean;
}

/** The watch over one bed. */
export interface BedWatch {
  /** Takes the next hour: hours come in order, each once, empty ones too. */
  step(hour: BedHour): StepResult;
  standing(): Standing;
  /** All that is needed to go on later, as JSON text. */
  checkpoint(): string;
}

export interface Watch {
  /** Changes whenever the same readings would give other answers: checkpoints of another version are not used. */
  readonly version: string;
  /** Begins before the bed's first hour, or goes on from a checkpoint of the same version and bed. */
  open(bed: WatchedBed, checkpoint?: string): BedWatch;
}
