/** What was written down of a bed and its probes, in one order: where it stands, and when it was. */
import type { Database } from './database.js';

export const STORED_EVENTS = [
  'filling',
  'inspection',
  'alarm-raised',
  'alarm-moved',
  'alarm-acknowledged',
  'alarm-cleared',
  'alarm-withdrawn',
  'calibration',
  'stock-out',
  'readiness-override',
] as const;
export type StoredEventKind = (typeof STORED_EVENTS)[number];

export interface StoredEvent {
  readonly kind: StoredEventKind;
  /** ms. */
  readonly at: number;
  /** Tells it from others of its kind. */
  readonly ref: string;
  /** The record as it was written down; null for alarms, which are read by `ref`. */
  readonly document: string | null;
}

/** Where a list goes on: before this, newest first. */
export interface EventMark {
  readonly at: number;
  /** `kind.ref`. */
  readonly key: string;
}

export interface EventFilter {
  readonly site: string;
  readonly bed: string;
  /** Of the bed: calibrations of these are told. */
  readonly probes: readonly string[];
  /** ms, inclusive. */
  readonly from: number;
  /** ms, exclusive. */
  readonly to: number;
  readonly before: EventMark | undefined;
  readonly most: number;
}

const ofAlarm = (kind: StoredEventKind, time: string, condition = 'withdrawn = 0'): string =>
  `SELECT '${kind}' AS kind, ${time} AS at, id AS ref, NULL AS document FROM alarm
   WHERE bed = @bed AND ${time} >= @from AND ${time} < @to AND ${condition}`;

const ofRecord = (kind: StoredEventKind, table: string, condition = '1'): string =>
  `SELECT '${kind}' AS kind, at, id AS ref, document FROM ${table}
   WHERE bed = @bed AND at >= @from AND at < @to AND ${condition}`;

/** Of withdrawn alarms only those whose place no other has taken: people may still rely on them. */
const PARTS = [
  ofRecord('filling', 'filling'),
  ofRecord('inspection', 'inspection'),
  ofRecord('stock-out', 'stock_entry', `document ->> '$.kind' = 'out'`),
  ofAlarm('alarm-raised', 'raised_at'),
  ofAlarm('alarm-moved', 'moved_at'),
  ofAlarm('alarm-acknowledged', 'ack_at'),
  ofAlarm('alarm-cleared', 'cleared_at'),
  ofAlarm('alarm-withdrawn', 'end_known_at', 'withdrawn = 1 AND end_known = 0'),
  `SELECT 'calibration' AS kind, from_at AS at, id AS ref, document FROM calibration
   WHERE site = @site AND probe IN (SELECT value FROM json_each(@probes)) AND from_at >= @from AND from_at < @to`,
  `SELECT 'readiness-override' AS kind, one.at, readiness || '.' || one.rowid AS ref, one.document
   FROM readiness_override AS one JOIN readiness ON readiness.id = one.readiness
   WHERE bed = @bed AND one.at >= @from AND one.at < @to`,
];

export class EventStore {
  readonly #page;

  constructor(database: Database) {
    this.#page = database.prepare(
      `SELECT kind, at, ref, document FROM (${PARTS.join(' UNION ALL ')})
       WHERE (at, kind || '.' || ref) < (@at, @key) ORDER BY at DESC, kind || '.' || ref DESC LIMIT @most`,
    );
  }

  /** Newest first, at most so many; of one time in the order of kind and ref. */
  page({ site, bed, probes, from, to, before, most }: EventFilter): StoredEvent[] {
    const { at, key } = before ?? { at: to, key: '' };
    return this.#page.all({
      ...{ site, bed, probes: JSON.stringify(probes), from, to, at, key, most },
    }) as StoredEvent[];
  }
}
