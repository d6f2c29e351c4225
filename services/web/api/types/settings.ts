/** Probes, thresholds, ways, drills and who may do what, as the service tells them; times are RFC 3339 text. */
import type { Action, Role } from '../../../core/model/roles.js';
import type { Via } from './site.js';

export interface KnownProbe {
  readonly site: string;
  readonly id: string;
  readonly model: string | null;
  /** cm; null where it stands nowhere now. */
  readonly stands: {
    readonly bed?: string;
    readonly x?: number;
    readonly y?: number;
    readonly depth?: number;
    readonly ambient?: true;
  } | null;
  readonly since: string | null;
  /** What the broker last said; null where it said nothing. */
  readonly online: boolean | null;
  /** Event time of its newest reading. */
  readonly lastHeardAt: string | null;
  readonly battery_V: number | null;
  readonly charge_EL: number | null;
  readonly onBenchSince: string | null;
  readonly calibrations: readonly {
    readonly quantity: 'temperature' | 'humidity';
    readonly calibration: string | null;
    readonly dueAt: string | null;
    readonly isDue: boolean;
  }[];
}

export interface UnknownProbe {
  readonly site: string;
  readonly probe: string;
  readonly readings: number;
  readonly firstAt: string;
  readonly lastAt: string;
}

export type ThresholdValue = number | string;

export interface Threshold {
  readonly name: string;
  readonly group: 'warmth' | 'damp' | 'looks' | 'calibration' | 'sand' | 'readiness' | 'telling';
  /** English, as unit and source. */
  readonly meaning: string;
  readonly unit: string;
  /** Null for a time of the clock. */
  readonly low: number | null;
  readonly high: number | null;
  readonly default: ThresholdValue;
  readonly source: string;
  /** In force. */
  readonly value: ThresholdValue;
  readonly setAt: 'default' | 'site' | 'bed';
  /** What would be in force if it were not set here. */
  readonly otherwise: ThresholdValue;
  /** Where it is set in the description of the bed or site. */
  readonly path: readonly string[];
}

export interface Way {
  readonly via: Via;
  readonly usable: boolean;
  readonly answers: boolean;
}

export interface Drill {
  readonly id: string;
  readonly at: string;
  readonly messages: readonly DrillMessage[];
  /** People without a way that can be used. */
  readonly without: readonly string[];
}

export interface DrillMessage {
  /** Or `site`. */
  readonly person: string;
  readonly via: string;
  readonly after_s: number | null;
  readonly received_s: number | null;
  readonly gone: boolean;
  readonly error: string | null;
}

/** Texts are in English. */
export interface Access {
  readonly notes: readonly string[];
  readonly roles: readonly {
    readonly role: Role;
    readonly may: readonly Action[];
    /** Of these: at the beds that are named with the role alone. */
    readonly atNamedBeds: readonly Action[];
  }[];
  readonly parties: readonly {
    readonly id: string;
    readonly isOpen: boolean;
    readonly who: string;
    readonly proof: string;
    readonly may: readonly string[];
    readonly mayNot: readonly string[];
  }[];
}

export interface Language {
  readonly language: string;
  readonly name: string;
  readonly draft: boolean;
}
