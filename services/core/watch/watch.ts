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
import type { ProbeCorrections } from './corrections.js';
import type { QualityFlag } from './flag.js';
import type { NextLook } from './thermal-time/index.js';

export type { FlaggedQuantity, FlagReason, QualityFlag } from './flag.js';

/** What a probe sent for one time; a quantity that it did not measure is absent. */
export interface Sample {
  /** Event time, ms. */
  readonly at: number;
  /** °C. */
  readonly temperature?: number;
  /** Relative humidity, %RH. */
  readonly humidity?: number;
}

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
  /**
   * By probe id: what was measured in the hour, raw, in order of time; each has a temperature, a humidity or both.
   * Only what was measured while the probe stood in this bed: an hour in which it was moved gives the samples before
   * to the old place and those after to the new. A probe moved within the bed has those of both places here, and
   * `WatchedBed.placements` tells them apart. A probe that measured nothing is absent.
   */
  readonly probes: ReadonlyMap<string, readonly Sample[]>;
  /** The same by shade probe of the site, while it stood in the shade; empty where none measured anything. */
  readonly shade: ReadonlyMap<string, readonly Sample[]>;
  /** By id of a probe of the bed or the shade: its calibrations for this hour; absent where it has none and had none. */
  readonly corrections?: ReadonlyMap<string, ProbeCorrections>;
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

/** Which alarm: at most one episode of a kind, action and subject is open in a bed at a time. */
export interface Condition {
  readonly kind: AlarmKind;
  readonly action: Action;
  /** What of the bed it is about: empty for the bed as a whole, a probe's id for a fault or the silence of a probe. */
  readonly subject: string;
}

/**
 * - `raise`: the condition is established
 * - `refine`: what is known of an open episode has become better; its place and evidence move, its time does not
 * - `clear`: the condition has returned to normal
 */
export type Change =
  | (Condition & {
      readonly type: 'raise';
      readonly priority: Priority;
      readonly evidence: Evidence;
      readonly place: Place | null;
    })
  | (Condition & { readonly type: 'refine'; readonly evidence: Evidence; readonly place: Place | null })
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
  /**
   * By id of a probe of the bed or of the shade: what the watch does not use, of this hour or found out now of an
   * earlier one. A value that is flagged again keeps its first reason.
   */
  readonly flags: ReadonlyMap<string, readonly QualityFlag[]>;
}

/** How a bed stands after its last hour, in words for people. */
export interface Standing {
  /** What the judgement rests on, such as "shade probe and neighbours" or "its own history: no shade probe". */
  readonly basis: string;
  /** True until there is history enough to judge by. */
  readonly learning: boolean;
  /** When it must be looked into by hand, as warm as it is, and why then; absent where no probe has said anything. */
  readonly nextLook?: NextLook;
}

/**
 * Length of a checkpoint's text at the most, bytes: some are kept of every bed for as long as it stands. A bed with
 * six probes needs less than 256 KiB.
 */
export const LONGEST_CHECKPOINT_bytes = 2 * 1024 * 1024;

/** The watch over one bed. */
export interface BedWatch {
  /** Takes the next hour: hours come in order, each once, empty ones too. */
  step(hour: BedHour): StepResult;
  standing(): Standing;
  /** All that is needed to go on later, as JSON text of at most `LONGEST_CHECKPOINT_bytes`. */
  checkpoint(): string;
}

export interface Watch {
  /** Changes whenever the same readings would give other answers: checkpoints of another version are not used. */
  readonly version: string;
  /** Begins before the bed's first hour, or goes on from a checkpoint of the same version and bed. */
  open(bed: WatchedBed, checkpoint?: string): BedWatch;
}
