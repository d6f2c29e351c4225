/** What the HTTP edge needs of the rest: declared here, joined in serve.ts. Nothing in it waits but what says so. */

import type { Said } from '../core/alarms/languages/index.js';
import type { Plan, PlanQuestion, RotLeft } from '../core/keeping/index.js';
import type { Alarm, AlarmState } from '../core/model/alarm.js';
import type { Inspection, InspectionBody } from '../core/model/inspection.js';
import type { Language } from '../core/model/languages.js';
import type { Bed } from '../core/model/site.js';
import type { CoverageAnswer } from '../core/watch/coverage/index.js';
import type { AccessPorts } from './ports-access.js';
import type { AlarmStory } from './ports-alarm.js';
import type { BenchPorts, CalibrationPorts } from './ports-calibration.js';
import type { ExportPorts } from './ports-export.js';
import type { ReadinessPorts, SandPorts } from './ports-keeping.js';
import type { InspectedView, LedgerPorts } from './ports-ledger.js';
import type { LivePorts } from './ports-live.js';
import type { PeoplePorts } from './ports-people.js';
import type { SeasonPorts } from './ports-season.js';
import type { Doubt, SeriesPorts } from './ports-series.js';
import type { SitePorts } from './ports-sites.js';
import type { TodayPorts } from './ports-today.js';
import type { TrialPorts } from './ports-trials.js';

export type { Said } from '../core/alarms/languages/index.js';
export * from './ports-access.js';
export type * from './ports-alarm.js';
export type * from './ports-calibration.js';
export type * from './ports-export.js';
export type * from './ports-keeping.js';
export type * from './ports-ledger.js';
export type * from './ports-live.js';
export type * from './ports-people.js';
export type * from './ports-season.js';
export type * from './ports-series.js';
export { DOUBTS, READ_FROM } from './ports-series.js';
export * from './ports-sites.js';
export type * from './ports-today.js';
export type * from './ports-trials.js';

export interface Health {
  readonly status: 'ok' | 'degraded';
  /** In words, one for each thing that is wrong; empty when ok. */
  readonly problems: readonly string[];
  /** Readings are being accepted. */
  readonly accepting: boolean;
  readonly version: string;
  readonly startedAt: number;
  readonly broker: {
    readonly kind: 'built-in' | 'external';
    readonly connected: boolean;
    /** By whom it was of, since the start; null where another broker decides. */
    readonly refused: {
      readonly connect: number;
      readonly publish: number;
      readonly subscribe: number;
    } | null;
  };
  /** Newest event time kept, ms; null before the first reading. */
  readonly newestReadingAt: number | null;
  /** Beds whose watch has hours still to look at, how many hours that is at the most, and how many of each bed. */
  readonly watchLag: {
    readonly beds: number;
    readonly hours: number;
    readonly byBed: readonly { readonly bed: string; readonly hours: number }[];
  };
  readonly outboxWaiting: number;
  /** How forwarding to the long archive goes; null where there is none. */
  readonly longArchive: LongArchiveHealth | null;
  readonly olderReadings: OlderHealth | null;
}

/** How putting older readings into their hours goes. */
export interface OlderHealth {
  /** For so long readings are kept one by one. */
  readonly keep_days: number;
  /** Before this event time those of every probe of which any are by hours are so, ms; null where none are. */
  readonly byHoursTo: number | null;
  /** Probes whose readings may go and have not gone, and days of the one that is furthest behind. */
  readonly waiting: { readonly probes: number; readonly days: number };
  /** When any went last, wall clock, ms; null where none did since the start. */
  readonly lastAt: number | null;
  /** Open alarms that keep readings one by one that are older. */
  readonly heldBy: readonly { readonly bed: string; readonly alarm: string }[];
}

export interface LongArchiveHealth {
  /** Without user and password. */
  readonly address: string;
  /** Readings that are not forwarded yet. */
  readonly waiting: number;
  /** When the oldest of them was taken in, wall clock, ms; null where none waits. */
  readonly oldestAt: number | null;
  /** Readings that the server would not take, since the start. */
  readonly refused: number;
  readonly lastError: { readonly at: number; readonly reason: string } | null;
}

/** A probe in a bed with its latest raw-corrected values. */
/** A probe that stood in a bed: its last place there, and until when. */
export interface FormerProbeView {
  readonly id: string;
  /** cm. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Event time, ms. */
  readonly until: number;
}

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
    /** Absent where there is nothing to doubt, as in series. */
    readonly temperatureDoubt?: Doubt;
    readonly humidity_RH?: number;
    readonly humidityUncertainty_RH?: number;
    readonly humidityDoubt?: Doubt;
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
  /** Of its site, IANA name. */
  readonly timezone: string;
  readonly bed: Bed;
  readonly probes: readonly ProbeView[];
  readonly formerProbes: readonly FormerProbeView[];
  /** Probes with a stay in the shade of the site. */
  readonly shade: readonly string[];
  /** `sound`, `learning`, or what the most urgent open alarm, or rot that was left, asks for. */
  readonly stands: 'unfilled' | 'learning' | 'sound' | 'unpack' | 'check' | 'service';
  /**
   * Since when, event time, ms: the first open alarm that asks for it was raised, or the last that asked for anything was
   * over, or a look found rot or dealt with it, or it was filled; null where none of that is known. Never after now.
   */
  readonly standsSince: number | null;
  /** Rot that was found and left; null where none is known. */
  readonly rotLeft: RotLeft | null;
  /** Roots left in it; null where its stock is not kept. */
  readonly rootsLeft: number | null;
  /** In words: what the judgement rests on. */
  readonly basis: string;
  /** Up to when the watch has judged it, ms, never after now; null before the first hour. */
  readonly judgedTo: number | null;
  readonly openAlarms: readonly Alarm[];
  readonly latestInspection: Inspection | null;
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

export interface HttpPorts extends SeriesPorts {
  readonly access: AccessPorts;
  readonly live: LivePorts;
  readonly today: TodayPorts['today'];
  readonly people: PeoplePorts;
  readonly sites: SitePorts;
  readonly bench: BenchPorts;
  readonly calibrations: CalibrationPorts;
  readonly sand: SandPorts;
  /** Rejects with what a plan is refused with, or LIMIT_EXCEEDED where too much is asked at a time. Takes some seconds. */
  plan(question: PlanQuestion): Promise<Plan>;
  readonly readiness: ReadinessPorts;
  readonly exports: ExportPorts;
  readonly seasons: SeasonPorts;
  readonly trials: TrialPorts;
  readonly ledger: LedgerPorts;
  health(): Health;
  beds(): readonly BedView[];
  /** Throws NOT_FOUND. */
  bed(id: string): BedView;
  /**
   * What the probes that stand in a bed now would find. Rejects with NOT_FOUND, or LIMIT_EXCEEDED where too much is asked
   * at a time or the bed is too large. Takes up to some seconds, in a thread of its own.
   */
  coverage(bed: string, query: CoverageQuery): Promise<CoverageView>;
  alarms(query: AlarmQuery): { readonly alarms: readonly Alarm[]; readonly more: boolean };
  /** One alarm opened, also one that was withdrawn. Throws NOT_FOUND. */
  alarm(id: string): AlarmStory;
  /** The text of an alarm in a language. */
  alarmSaid(alarm: Alarm, language: Language): Said;
  /** Where to dig, in a language; null for an alarm without a place. */
  placeSaid(alarm: Alarm, language: Language): Said | null;
  /** An alarm as CAP 1.2. Throws NOT_FOUND. */
  cap(id: string): string;
  /** Silence for a time. Throws NOT_FOUND, and CONFLICT for an alarm that is over. */
  shelve(id: string, body: { readonly by: string; readonly hours: number }): Alarm;
  /** Throws NOT_FOUND; acknowledging twice keeps the first. */
  acknowledge(id: string, body: { by: string; note: string }): Alarm;
  /** Throws NOT_FOUND, or CONFLICT for a time in the future and for an id that is there with other content. */
  inspect(bed: string, body: InspectionBody): InspectedView;
  unknownProbes(): readonly UnknownProbe[];
  quarantine(limit: number): readonly QuarantineEntry[];
  /** OpenMetrics text and its content type. */
  metrics(): Promise<{ readonly text: string; readonly contentType: string }>;
}
