/** What is asked of a bed's probes, and what they would find. */
import type { Point } from '../warmth/responses.js';

/** A place counts as found from this chance on, and as blind below that one. Judgement. */
export const FOUND = 0.9;
export const BLIND = 0.5;

export interface CoverageQuestion {
  /** Heat of the whole source once it is grown, W, in [0.5, 8]: two kilograms rotting give about 2. */
  readonly power_W: number;
  /** Days from its beginning in which it shall be told, in [1, 21]. */
  readonly days: number;
  /** Whether a shade probe tells what the weather does. */
  readonly shade: boolean;
  /** Alarms that a sound bed may give in a month: `heating_unpack_per_bed_month` and `heating_check_per_bed_month`. */
  readonly rates: { readonly unpack_per_bed_month: number; readonly check_per_bed_month: number };
}

/** A place, cm from the north-west corner of the opening, with the sand that it stands for. */
export interface PlaceChance extends Point {
  readonly volume_L: number;
  /** That a source there is told to be unpacked in time, in [0, 1]. */
  readonly chance: number;
}

export interface BlindSpot extends Point {
  /** Holds all of it, cm. */
  readonly radius: number;
  /** Of the bed's volume. */
  readonly share: number;
  /** After how many days a source in its middle would be found after all; undefined where it would not be in three weeks. */
  readonly foundAfter_days?: number;
}

/** Where a probe would be put, and the share found with it. */
export interface ProbePlace extends Point {
  readonly share: number;
}

export interface Coverage {
  /** Of the bed's volume: where a source is found in time with a chance of at least `FOUND`. */
  readonly share: number;
  /** Of the bed's volume: where the chance is below `BLIND`. */
  readonly blindShare: number;
  /** The largest first; small ones are left out. */
  readonly blindSpots: readonly BlindSpot[];
  /** All over the bed. */
  readonly places: readonly PlaceChance[];
}
