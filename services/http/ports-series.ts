/** What the HTTP edge needs for plots of a bed: series, the daily swing that arrives, and what happened when. */
import type { EventKind } from '../core/keeping/index.js';
import type { DailyShares, SharesThrough } from '../core/watch/dampness/index.js';
import type { QualityFlag } from '../core/watch/flag.js';

export const DOUBTS = ['outside', 'drifted'] as const;
export type Doubt = (typeof DOUBTS)[number];

export interface FlaggedValue extends QualityFlag {
  /** As the probe sent it, °C or %RH. */
  readonly value: number;
}

/**
 * Where a stretch of a series was read: kept one by one, kept by hours (their least and greatest), or the long archive.
 */
export const READ_FROM = ['full-rate', 'hours', 'long-archive'] as const;
export type ReadFrom = (typeof READ_FROM)[number];

/** Parallel columns, so that a plot reads them without rebuilding. A value that is absent is null. */
export interface MeasuredSeries {
  /** Event times, ms, ascending. */
  readonly time: readonly number[];
  /** Corrected values. */
  readonly temperature_C: readonly (number | null)[];
  /** Expanded uncertainty of the corrected value, k = 2; null where no calibration is in force. */
  readonly temperatureUncertainty_C: readonly (number | null)[];
  /** Why the corrected value is to be doubted: beyond what was calibrated, or the probe was found to have drifted. */
  readonly temperatureDoubt: readonly (Doubt | null)[];
  readonly humidity_RH: readonly (number | null)[];
  readonly humidityUncertainty_RH: readonly (number | null)[];
  readonly humidityDoubt: readonly (Doubt | null)[];
  /** Values that the watch does not use, in order of time: the newest where there are more than asked for points. */
  readonly flagged: readonly FlaggedValue[];
  /** Whether the columns hold the extremes of parts of the span only, without values that are not used. */
  readonly thinned: boolean;
  /** Where it was read, from the earliest stretch on. */
  readonly readFrom: readonly ReadFrom[];
}

/** What the watch made of whole hours. */
export interface HourSeries {
  /** Starts of hours, ms, ascending. */
  readonly time: readonly number[];
  readonly expected_C: readonly (number | null)[];
  readonly band_C: readonly (number | null)[];
  readonly excess_C: readonly (number | null)[];
}

export interface ProbeSeries extends MeasuredSeries {
  readonly probe: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Of the hour of each reading. */
  readonly expected_C: readonly (number | null)[];
  readonly band_C: readonly (number | null)[];
  /** Least and greatest excess kept. */
  readonly hours: HourSeries;
}

/** Of a probe in the shade outside. */
export interface ShadeSeries extends MeasuredSeries {
  readonly probe: string;
}

export interface TimeSpan {
  /** Event time, ms, inclusive. */
  readonly from: number;
  /** Event time, ms, exclusive. */
  readonly to: number;
}

export interface SeriesQuery extends TimeSpan {
  /** Bound on the length of each probe's columns; minima and maxima are kept. */
  readonly points: number;
  /** Of the bed or of its shade; all of the bed where absent. */
  readonly probes?: readonly string[] | undefined;
}

/** Rows of one probe from before the time from which they are kept one by one, raw. */
export interface OlderRows {
  /** End of the stretch, ms. */
  readonly upTo: number;
  readonly rows: readonly {
    readonly time: number;
    readonly temperature: number | null;
    readonly humidity: number | null;
  }[];
  readonly thinned: boolean;
}

/** What the long archive gave for a question. */
export interface OlderReadings {
  /** By probe. */
  readonly probes: ReadonlyMap<string, OlderRows>;
  /** Why it could not be asked, in a sentence; null where it could or need not. */
  readonly note: string | null;
}

export interface ProbeSwing extends DailyShares {
  readonly probe: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Sand between the probe and the air that swings with the day, cm. */
  readonly cover: number;
  /** What sand would let through there; null where no sand lies between. */
  readonly lets: SharesThrough | null;
}

export interface SwingView {
  /** Probes that stood in the shade during the span. */
  readonly shade: readonly string[];
  /** Why nothing can be said, in a sentence; null where something can. */
  readonly missing: string | null;
  readonly threshold: {
    readonly name: string;
    readonly value: number;
    readonly unit: string;
    readonly source: string;
  };
  readonly probes: readonly ProbeSwing[];
}

/** Ids of what an event is about; what it is not about is absent. */
export interface EventAbout {
  readonly alarm?: string;
  readonly filling?: string;
  readonly inspection?: string;
  readonly calibration?: string;
  readonly stock?: string;
  readonly readiness?: string;
  readonly probe?: string;
}

export interface BedEvent {
  /** Also says where a list goes on. */
  readonly id: string;
  /** ms: when it happened at the bed; of what people did with an alarm, when they did it. */
  readonly at: number;
  readonly kind: EventKind;
  /** A plain sentence. */
  readonly text: string;
  readonly about: EventAbout;
}

export interface EventQuery {
  /** ms, inclusive. */
  readonly from?: number | undefined;
  /** ms, exclusive. */
  readonly to?: number | undefined;
  readonly limit: number;
  /** Id of the last event already seen. */
  readonly after?: string | undefined;
}

export interface SeriesPorts {
  /** Reads what is not kept one by one any more from the long archive, where there is one. Rejects as `series`. */
  older(bed: string, query: SeriesQuery): Promise<OlderReadings>;
  /** Throws NOT_FOUND for the bed, and for probes that are neither of the bed nor of its shade. */
  series(bed: string, query: SeriesQuery, older?: OlderReadings): readonly ProbeSeries[];
  /** Of the shade probes that are named, or of all. Throws NOT_FOUND as `series`. */
  shadeSeries(bed: string, query: SeriesQuery, older?: OlderReadings): readonly ShadeSeries[];
  /** Rejects with NOT_FOUND. Goes by parts, so that readings go on being taken in. */
  swing(bed: string, span: TimeSpan): Promise<SwingView>;
  /** Newest first. Throws NOT_FOUND, and BAD_REQUEST for an `after` that no event has. */
  events(bed: string, query: EventQuery): { readonly events: readonly BedEvent[]; readonly more: boolean };
}
