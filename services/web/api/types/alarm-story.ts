/** One alarm opened, as the service tells it; times are RFC 3339 text. */
import type { Alarm } from './alarm.js';

export interface AlarmStory extends Omit<Alarm, 'language'> {
  readonly site: string;
  readonly language: string;
  readonly draft: boolean;
  readonly acknowledgement: { readonly by: string; readonly note: string; readonly at: string } | null;
  readonly shelving: { readonly by: string; readonly at: string; readonly until: string } | null;
  readonly foundOut: { readonly verdict: string; readonly lookedAt: string | null } | null;
  readonly bedName: string;
  readonly timezone: string;
  readonly withdrawn: boolean;
  readonly successor: string | null;
  readonly where: { readonly text: string; readonly language: string; readonly draft: boolean } | null;
  /** English. */
  readonly meaning: string;
  readonly why: readonly WhyItem[];
  readonly series: { readonly from: string; readonly to: string; readonly href: string };
  readonly probes: readonly StoryProbe[];
  readonly steps: { readonly language: string; readonly draft: boolean; readonly list: readonly TodoStep[] };
  /** English. */
  readonly cautions: readonly string[];
  readonly history: readonly HistoryEvent[];
}

export type Quantity = 'temperature' | 'humidity';

export interface WhyItem {
  readonly name: string;
  readonly label: string;
  readonly value: number | string;
  /** `time`, `1` for a ratio, null for a word. */
  readonly unit: string | null;
  /** The value as keepers say it; English. Null where the value itself says it. */
  readonly inWords: string | null;
  readonly text: string;
  readonly probe: string | null;
  readonly quantity: Quantity | null;
  readonly thresholds: readonly HeldAgainst[];
}

export interface HeldAgainst {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly setFor: 'default' | 'site' | 'bed';
  readonly source: string;
  readonly meaning: string;
  readonly limit?: number;
}

export interface StoryProbe {
  readonly probe: string;
  readonly at: { readonly x: number; readonly y: number; readonly depth: number } | null;
  readonly readings: readonly StoryReading[];
  readonly calibrations: Readonly<Record<Quantity, CalibrationThen | null>>;
}

export interface StoryReading {
  readonly at: string;
  readonly temperature_C: number | null;
  readonly expected_C: number | null;
  readonly humidity_RH: number | null;
}

export interface CalibrationThen {
  readonly id: string;
  readonly doneAt: string;
  /** k = 2. */
  readonly uncertainty: number | null;
}

export interface TodoStep {
  readonly text: string;
  readonly cautions: readonly string[];
}

export interface HistoryEvent {
  readonly what: string;
  readonly at: string;
  readonly clock: 'event' | 'service';
  readonly by?: string;
  readonly note?: string;
  readonly told?: { readonly via: string; readonly event: string; readonly delivered: boolean | null };
  readonly until?: string;
  readonly looked?: { readonly found: readonly string[]; readonly verdict: string | null };
}
