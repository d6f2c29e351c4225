/** What the HTTP edge asks for about exports. */
import type { Quantity } from '../core/model/quantity.js';

/** Of beds, site and trial exactly one is there. */
export interface ExportQuery {
  readonly beds?: readonly string[] | undefined;
  readonly site?: string | undefined;
  readonly trial?: string | undefined;
  /** Event times [from, to), ms; all there is on that side where absent. */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  /** With what was measured in the shade outside; of a site where absent. */
  readonly shade?: boolean | undefined;
  readonly quantities: readonly Quantity[];
}

export type ExportFormat = 'csv' | 'parquet';
export type ExportDocument = 'schema' | 'package' | 'calibrations' | 'citation';

export interface ExportPorts {
  /** Pieces of the file, each some ms of work; rejects before the first for what is not known; RECEIVER_UNAVAILABLE where the long archive does not answer. */
  rows(query: ExportQuery, format: ExportFormat): Promise<AsyncIterable<Uint8Array>>;
  document(query: ExportQuery, document: ExportDocument, format: ExportFormat): string;
}
