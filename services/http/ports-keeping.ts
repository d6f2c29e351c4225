/** What the HTTP edge needs for a bed before it is filled. */
import type { SandDocument } from '../core/keeping/index.js';
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
