/** A bed as the service tells it; lengths in cm, times are RFC 3339 text. */
import type { Stands } from '../../parts/standing.js';
import type { Alarm } from './alarm.js';

export interface Bed {
  readonly id: string;
  readonly site: string;
  /** Of its site, IANA name. */
  readonly timezone: string;
  readonly name: string;
  readonly kind: 'stepped-pit' | 'box';
  /** From the top down. */
  readonly steps: readonly BedStep[];
  readonly filled: string | null;
  readonly roots: { readonly count?: number; readonly mass_kg?: number } | null;
  readonly keeper: string | null;
  readonly stands: Stands;
  /** Event time. */
  readonly standsSince?: string | null;
  /** Rot that was found and left; absent from services before it was told. */
  readonly rotLeft?: RotLeft | null;
  /** Null where its stock is not kept. */
  readonly rootsLeft: number | null;
  /** What the judgement rests on, English. */
  readonly basis: string;
  /** Up to when the watch has judged it. */
  readonly judgedTo: string | null;
  readonly openAlarms: readonly Alarm[];
  readonly latestInspection: LatestInspection | null;
  readonly probes: readonly Probe[];
  /** That stood in the bed this season and do not now; absent from services before they were told. */
  readonly formerProbes?: readonly FormerProbe[];
  /** Ids of probes in the shade outside. */
  readonly shade: readonly string[];
}

/** Where a probe stood last in the bed, and until when. */
export interface FormerProbe {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly until: string;
}

export interface RotLeft {
  readonly since: string;
  readonly at: string;
  readonly text: string;
  /** Of the text. */
  readonly language: string;
}

/** A block of sand; x and y are its corner, from the north-west corner of the opening. */
export interface BedStep {
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly x: number;
  readonly y: number;
}

export interface LatestInspection {
  readonly at: string;
  readonly by: string;
  readonly opened: boolean;
  readonly repacked: boolean;
  readonly found: readonly string[];
  readonly note?: string;
}

/** `outside`: beyond what was calibrated; `drifted`: found so at its next calibration. */
export type Doubt = 'outside' | 'drifted';

export interface Probe {
  readonly id: string;
  readonly model: string | null;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** What the broker last said; null where it said nothing. */
  readonly online: boolean | null;
  readonly latest: Latest | null;
  /** Of the last whole hour that was judged. */
  readonly expected_C: number | null;
  readonly band_C: number | null;
  readonly excess_C: number | null;
}

/** Corrected; what was not measured is absent. */
export interface Latest {
  readonly at: string;
  readonly temperature_C?: number;
  /** Expanded, k = 2; absent without a calibration in force. */
  readonly temperatureUncertainty_C?: number;
  readonly temperatureDoubt?: Doubt;
  readonly humidity_RH?: number;
  readonly humidityUncertainty_RH?: number;
  readonly humidityDoubt?: Doubt;
  readonly battery_V?: number;
  readonly charge_EL?: number;
}
