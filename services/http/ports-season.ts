/** What the HTTP edge needs for a bed's season: what is to come, and what was. */
import type { Outlook, OutlookTask, SeasonDocument, SeasonFigures } from '../core/keeping/index.js';
import type { Bed } from '../core/model/site.js';

export type OutlookQuery = Pick<OutlookTask, 'months' | 'eating' | 'prices'>;

export interface OutlookView {
  readonly bed: Bed;
  readonly at: number;
  /** When it was filled, ms. */
  readonly since: number;
  readonly outlook: Outlook;
}

export interface SeasonOfBed {
  readonly bed: string;
  readonly figures: SeasonFigures;
}

export interface SeasonView {
  readonly document: SeasonDocument;
  /** End of the report, ms. */
  readonly to: number;
  readonly beds: readonly SeasonOfBed[];
}

/**
 * All throw NOT_FOUND for a bed that is none, TOO_FEW_SAMPLES for one that was never filled.
 *
 * `to` is the event time at which the report ends, now where it is absent.
 */
export interface SeasonPorts {
  outlook(bed: string, query: OutlookQuery): OutlookView;
  season(beds: readonly string[], to: number | undefined): SeasonView;
  page(beds: readonly string[], to: number | undefined): Promise<string>;
  pdf(beds: readonly string[], to: number | undefined): Promise<Uint8Array>;
}
