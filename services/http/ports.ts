/** What the HTTP edge needs of the rest: declared here, joined in serve.ts. Nothing in it waits but what says so. */

import type { Settling } from '../core/calibration/index.js';
import type { Alarm, AlarmState } from '../core/model/alarm.js';
import type { Bench, BenchBody, BenchPointBody, CaptureBody, FinishBody } from '../core/model/bench.js';
import type { CalibratedQuantity } from '../core/model/calibration.js';
import type { Calibration, CalibrationBody } from '../core/model/calibration-record.js';
import type { FieldCheckBody, FieldCheckRecord } from '../core/model/field-check.js';
import type { Inspection, InspectionBody } from '../core/model/inspection.js';
import type { Bed } from '../core/model/site.js';
import type { CoverageAnswer } from '../core/watch/coverage/index.js';
import type { QualityFlag } from '../core/watch/flag.js';

export interface Health {
  readonly status: 'ok' | 'degraded';
  /** In words, one for each thing that is wrong; empty when ok. */
  readonly problems: readonly string[];
  /** Readings are being accepted. */
  readonly accepting: boolean;
  readonly version: string;
  readonly startedAt: number;
  readonly broker: { readonly kind: 'built-in' | 'external'; readonly connected: boolean };
  /** Newest event time kept, ms; null before the first reading. */
  readonly newestReadingAt: number | null;
  /** Beds whose watch has hours still to look at, how many hours that is at the most, and how many of each bed. */
  readonly watchLag: {
    readonly beds: number;
    readonly hours: number;
    readonly byBed: readonly { readonly bed: string; readonly hours: number }[];
  };
  readonly outboxWaiting: number;
}

/** A probe in a bed with its latest raw-corrected values. */
export interface ProbeView {
  readonly id: string;
  readonly model: string | null;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** What the broker last said of it; null where it said nothing. */
  readonly online: boolean | null;
  readonly latest: {
    readonly at: number;
    readonly temperature_C?: number;
    /** Expanded, k = 2; absent without a calibration in force. */
    readonly temperatureUncertainty_C?: number;
    readonly humidity_RH?: number;
    readonly humidityUncertainty_RH?: number;
    readonly battery_V?: number;
    readonly charge_EL?: number;
  } | null;
  /** From the last whole hour that the watch has judged. */
  readonly expected_C: number | null;
  readonly band_C: number | null;
  readonly excess_C: number | null;
}

export interface BedView {
  readonly site: string;
  readonly bed: Bed;
  readonly probes: readonly ProbeView[];
  /** `sound`, `learning`, or what the most urgent open alarm asks for. */
  readonly stands: 'sound' | 'learning' | 'unpack' | 'check' | 'service';
  /** In words: what the judgement rests on. */
  readonly basis: string;
  /** End of the last hour that the watch has judged, ms; null before the first. */
  readonly judgedTo: number | null;
  readonly openAlarms: readonly Alarm[];
  readonly latestInspection: Inspection | null;
}

export const DOUBTS = ['outside', 'drifted'] as const;
export type Doubt = (typeof DOUBTS)[number];

/** Parallel columns, so that a plot reads them without rebuilding. A value that is absent is null. */
export interface ProbeSeries {
  readonly probe: string;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
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
  readonly expected_C: readonly (number | null)[];
  readonly band_C: readonly (number | null)[];
  /** Values that the watch does not use, in order of time: the newest where there are more than asked for points. */
  readonly flagged: readonly QualityFlag[];
}

export interface SeriesQuery {
  /** Event time, ms, inclusive. */
  readonly from: number;
  /** Event time, ms, exclusive. */
  readonly to: number;
  /** Bound on the length of each probe's columns; minima and maxima of temperature are kept. */
  readonly points: number;
}

export interface AlarmQuery {
  readonly bed?: string | undefined;
  readonly state?: AlarmState | undefined;
  /** Raised at this event time or later, ms. */
  readonly from?: number | undefined;
  /** Raised before this event time, ms. */
  readonly to?: number | undefined;
  /** Rows to give at the most. */
  readonly limit: number;
  /** Give only alarms after this one in the order newest first. */
  readonly after?: string | undefined;
}

export interface CoverageQuery {
  /** Of a source once it is grown, W. */
  readonly power_W: number;
  /** Days from its beginning. */
  readonly days: number;
  /** Whether it is asked where the next probe would help most. */
  readonly next: boolean;
}

export interface CoverageView extends CoverageAnswer {
  readonly bed: Bed;
  /** Probes that stand in it. */
  readonly probes: number;
  /** Whether a probe stands in the shade outside. */
  readonly shade: boolean;
}

/** A probe that no site description knows, whose readings are kept apart. */
export interface UnknownProbe {
  readonly site: string;
  readonly probe: string;
  readonly readings: number;
  readonly firstAt: number;
  readonly lastAt: number;
}

export interface QuarantineEntry {
  readonly reason: string;
  readonly topic: string;
  readonly detail: string;
  /** The first bytes of the payload, base64. */
  readonly payload: string;
  readonly count: number;
  readonly firstAt: number;
  readonly lastAt: number;
}

export interface CalibrationQuery {
  readonly site?: string | undefined;
  readonly probe?: string | undefined;
  readonly quantity?: CalibratedQuantity | undefined;
  /** Only those in force now. */
  readonly inForce?: boolean | undefined;
  readonly limit: number;
}

/** Pairs from a file: the body of `POST /api/calibrations/pairs`. */
export interface PairsBody extends Omit<CalibrationBody, 'probe' | 'quantity' | 'points' | 'supersedes'> {
  /** Text of the file. */
  readonly csv: string;
  /** Where the file does not say it. */
  readonly probe?: string | undefined;
  readonly quantity?: CalibratedQuantity | undefined;
  /** Standard uncertainty of the reference, where the file does not say it. */
  readonly uncertainty?: number | undefined;
  /** Show what would come of it, and keep nothing. */
  readonly dryRun: boolean;
}

export interface PairsView {
  readonly badLines: readonly { readonly line: number; readonly message: string }[];
  readonly calibrations: readonly Calibration[];
  readonly kept: boolean;
}

/** When the next calibration of a probe falls due. */
export interface DueView {
  readonly site: string;
  readonly probe: string;
  readonly quantity: CalibratedQuantity;
  /** In force now; null where none is. */
  readonly calibration: string | null;
  readonly dueAt: number | null;
  readonly isDue: boolean;
}

/** What a calibration is to the others of its probe, now. */
export interface CalibrationStanding {
  readonly inForce: boolean;
  readonly supersededBy: string | null;
}

export interface CalibrationPorts {
  list(query: CalibrationQuery): readonly Calibration[];
  /** Throws NOT_FOUND. */
  get(id: string): Calibration;
  standing(calibration: Calibration): CalibrationStanding;
  /** Throws NOT_FOUND, CONFLICT, TOO_FEW_SAMPLES, OUT_OF_DOMAIN. */
  add(body: CalibrationBody): Calibration;
  /** Throws BAD_REQUEST besides. */
  pairs(body: PairsBody): PairsView;
  due(): readonly DueView[];
  /** The certificate as a page. */
  page(id: string): string;
  /** The certificate as PDF. */
  pdf(id: string): Promise<Uint8Array>;
  fieldChecks(
    site: string | undefined,
    probe: string | undefined,
    limit: number,
  ): readonly FieldCheckRecord[];
  checkInField(body: FieldCheckBody): FieldCheckRecord;
}

export interface BenchView {
  readonly bench: Bench;
  /** How each probe settles at the current point; empty where there is none. */
  readonly settling: readonly (Settling & { readonly probe: string; readonly captured: boolean })[];
  readonly cautions: readonly string[];
}

/** What a bench would come to for a probe. */
export interface FitView {
  readonly probe: string;
  readonly calibration: Calibration | null;
  readonly problem: string | null;
}

/** All throw NOT_FOUND for a bench that is none, and what the bench itself refuses. */
export interface BenchPorts {
  list(site: string | undefined, state: Bench['state'] | undefined, limit: number): readonly Bench[];
  open(body: BenchBody): BenchView;
  get(id: string): BenchView;
  point(id: string, body: BenchPointBody): BenchView;
  capture(id: string, body: CaptureBody): BenchView;
  fits(id: string, body: FinishBody): readonly FitView[];
  finish(id: string, body: FinishBody): { bench: BenchView; calibrations: readonly Calibration[] };
  giveUp(id: string, reason: string): BenchView;
}

export interface HttpPorts {
  readonly bench: BenchPorts;
  readonly calibrations: CalibrationPorts;
  health(): Health;
  beds(): readonly BedView[];
  /** Throws NOT_FOUND. */
  bed(id: string): BedView;
  /** Throws NOT_FOUND. */
  series(bed: string, query: SeriesQuery): readonly ProbeSeries[];
  /**
   * What the probes that stand in a bed now would find. Rejects with NOT_FOUND, or LIMIT_EXCEEDED where too much is asked
   * at a time or the bed is too large. Takes up to some seconds, in a thread of its own.
   */
  coverage(bed: string, query: CoverageQuery): Promise<CoverageView>;
  alarms(query: AlarmQuery): { readonly alarms: readonly Alarm[]; readonly more: boolean };
  /** Throws NOT_FOUND; acknowledging twice keeps the first. */
  /** Silence for a time. Throws NOT_FOUND, and CONFLICT for an alarm that is over. */
  shelve(id: string, body: { readonly by: string; readonly hours: number }): Alarm;
  acknowledge(id: string, body: { by: string; note: string }): Alarm;
  /** Throws NOT_FOUND, or CONFLICT for a time in the future. */
  inspect(bed: string, body: InspectionBody): Inspection;
  unknownProbes(): readonly UnknownProbe[];
  quarantine(limit: number): readonly QuarantineEntry[];
  /** OpenMetrics text and its content type. */
  metrics(): Promise<{ readonly text: string; readonly contentType: string }>;
}
