/** What the HTTP edge needs for calibrations. */
import type { Settling, Waiting } from '../core/calibration/index.js';
import type { Bench, BenchBody, BenchPointBody, CaptureBody, FinishBody } from '../core/model/bench.js';
import type { CalibratedQuantity } from '../core/model/calibration.js';
import type { Calibration, CalibrationBody } from '../core/model/calibration-record.js';
import type { FieldCheckBody, FieldCheckRecord } from '../core/model/field-check.js';

export interface CalibrationQuery {
  readonly site?: string | undefined;
  readonly probe?: string | undefined;
  readonly quantity?: CalibratedQuantity | undefined;
  /** Only those in force now. */
  readonly inForce?: boolean | undefined;
  readonly limit: number;
}

/** Pairs from a file: the body of `POST /api/calibrations/pairs`. */
export interface PairsBody extends Omit<CalibrationBody, 'probe' | 'quantity' | 'points'> {
  /** Text of the file. */
  readonly csv: string;
  /** Where the file does not say it. */
  readonly probe?: string | undefined;
  readonly quantity?: CalibratedQuantity | undefined;
  /** Standard uncertainty of the reference, where the file does not say it. */
  readonly uncertainty?: number | undefined;
  /** Lines of the file that are not to be fitted; the probe is checked where it is given. */
  readonly leaveOut?:
    | readonly {
        readonly line: number;
        readonly reason: string;
        readonly probe?: string | undefined;
      }[]
    | undefined;
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
  /** Throws NOT_FOUND for a probe that nobody has heard of. */
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
  readonly settling: readonly (Settling & {
    readonly probe: string;
    readonly captured: boolean;
    /** Its last readings at the point, for a plot; event times in ms, raw values. */
    readonly trace: readonly { readonly time: number; readonly value: number }[];
  })[];
  readonly cautions: readonly string[];
  /** What stands in the way of the work, in words. */
  readonly warnings: readonly string[];
}

/** A bench after probes were captured, with those that were not, and why. */
export interface CapturedView extends BenchView {
  readonly waiting: readonly Waiting[];
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
  capture(id: string, body: CaptureBody): CapturedView;
  /** Takes the current point back. */
  dropPoint(id: string): BenchView;
  fits(id: string, body: FinishBody): readonly FitView[];
  finish(id: string, body: FinishBody): { bench: BenchView; calibrations: readonly Calibration[] };
  giveUp(id: string, reason: string): BenchView;
}
