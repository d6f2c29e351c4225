/** What the HTTP edge needs for a bed before it is filled. */
import type { Readiness, SandDocument } from '../core/keeping/index.js';
import type { HandAnswers, Override, ReadinessBody, ReadinessRecord } from '../core/model/readiness.js';
import type { SandBody, SandRecord } from '../core/model/sand.js';

export interface SandView {
  readonly record: SandRecord;
  readonly report: SandDocument;
}

/** Sand, stateless or kept for a bed. All throw what a measurement that cannot be is refused with. */
export interface SandPorts {
  judge(body: SandBody): SandDocument;
  /** Throws NOT_FOUND, BAD_REQUEST where nobody is named, and CONFLICT for a time in the future. */
  keep(bed: string, body: SandBody): SandView;
  /** Newest first. Throws NOT_FOUND. */
  list(bed: string, limit: number): readonly SandView[];
}

export interface ReadinessView {
  readonly readiness: Readiness;
  /** What a hand said of this filling, and what was sieved and weighed for it. */
  readonly answers: HandAnswers;
  /** The last record of this filling. */
  readonly record: ReadinessRecord | null;
}

/** All throw NOT_FOUND. */
export interface ReadinessPorts {
  /** The list as probes answer it now, with what was answered by hand. */
  now(bed: string): ReadinessView;
  /** Throws CONFLICT for a time in the future, and what a measurement that cannot be is refused with. */
  keep(bed: string, body: ReadinessBody): ReadinessRecord;
  /** Throws CONFLICT for a bed that was ready, OUT_OF_DOMAIN for a time before the judgement. */
  override(bed: string, id: string, body: Override): ReadinessRecord;
  /** Newest first. */
  list(bed: string, limit: number): readonly ReadinessRecord[];
}
