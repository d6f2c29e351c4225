/** What the probes of a bed would find; lengths in cm, shares of the bed's volume 0 to 1. */
export interface CoverageAnswer {
  readonly power_W: number;
  readonly days: number;
  /** How many stand in the bed. */
  readonly probes: number;
  readonly shade: boolean;
  readonly share: number;
  readonly blindShare: number;
  readonly blindSpots: readonly BlindSpot[];
  readonly places: readonly PlaceChance[];
  /** Null where no further probe adds anything; absent where it was not asked. */
  readonly next?: NextProbe | null;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

export interface PlaceChance extends Spot {
  /** That a source there would be told in time. */
  readonly chance: number;
}

export interface BlindSpot extends Spot {
  readonly radius: number;
  readonly share: number;
  /** Null where a source in it would not be found in three weeks. */
  readonly foundAfter_days: number | null;
  /** English. */
  readonly where: string;
}

export interface NextProbe extends Spot {
  readonly share: number;
  /** English. */
  readonly where: string;
}
