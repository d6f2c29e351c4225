/** What the HTTP edge needs for trials. */
import type { AssignmentBody, DrawBody, PowerBody, Trial, TrialBody } from '../core/model/trial.js';
import type {
  CurvesBy,
  CurvesOf,
  SummaryCurve,
  TrialDocument,
  TrialResult,
  TrialSize,
} from '../core/trials/index.js';

export interface CurvesQuery {
  readonly of: CurvesOf;
  readonly by: CurvesBy;
}

export interface TrialKept {
  readonly trial: Trial;
  /** Whether it was not there before. */
  readonly isNew: boolean;
}

export interface TrialReportView {
  /** Every version, the one that stands first. */
  readonly versions: readonly [Trial, ...Trial[]];
  readonly document: TrialDocument;
  readonly result: TrialResult;
  /** What `trial test` reads, of beds and of roots. */
  readonly valuesCsv: string;
  readonly rootsCsv: string;
}

/** All that name a trial throw NOT_FOUND for one that is none. */
export interface TrialPorts {
  /** As they stand, the newest first. */
  list(): readonly Trial[];
  /** Every version, the one that stands first. */
  versions(trial: string): readonly [Trial, ...Trial[]];
  /** Throws CONFLICT for an id in use, a version that does not stand, and a bed of another trial; NOT_FOUND for a bed. */
  add(body: TrialBody): TrialKept;
  /**
   * Draws and shows, and puts nothing in force; what was shown already is shown again. Throws CONFLICT where treatments are
   * in force, TOO_FEW_SAMPLES where beds cannot be shared out.
   */
  draw(trial: string, body: DrawBody): TrialKept;
  /** Puts what was shown in force, or draws. Throws as `draw`, and CONFLICT for another seed than that of what was shown. */
  assign(trial: string, body: AssignmentBody): TrialKept;
  /** Rejects with LIMIT_EXCEEDED where no number of beds would do. */
  power(question: PowerBody): Promise<TrialSize>;
  /** Rejects with CONFLICT for a trial without treatments. */
  result(trial: string): Promise<TrialResult>;
  /** Rejects as `result`. */
  report(trial: string): Promise<TrialReportView>;
  page(trial: string): Promise<string>;
  pdf(trial: string): Promise<Uint8Array>;
  curves(trial: string, query: CurvesQuery): Promise<readonly SummaryCurve[]>;
}
