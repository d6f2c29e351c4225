/** What the probes of a bed measured, in columns: an absent value is null; times are RFC 3339 text. */
import type { Doubt } from './bed.js';

export interface MeasuredColumns {
  readonly probe: string;
  /** Ascending. */
  readonly time: readonly string[];
  readonly temperature_C: readonly (number | null)[];
  /** Expanded, k = 2; null without a calibration. */
  readonly temperatureUncertainty_C: readonly (number | null)[];
  readonly temperatureDoubt: readonly (Doubt | null)[];
  readonly humidity_RH: readonly (number | null)[];
  readonly humidityUncertainty_RH: readonly (number | null)[];
  readonly humidityDoubt: readonly (Doubt | null)[];
  /** Values that the watch does not use. */
  readonly flagged: readonly Flagged[];
  readonly thinned: boolean;
}

export interface Flagged {
  readonly at: string;
  readonly quantity: 'temperature' | 'humidity';
  readonly reason: string;
  /** As the probe sent it. */
  readonly value: number;
}

/** One stay of a probe at one place of the bed, cm. */
export interface ProbeColumns extends MeasuredColumns {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Of the hour of each reading. */
  readonly expected_C: readonly (number | null)[];
  readonly band_C: readonly (number | null)[];
  /** What the watch made of whole hours, by their starts. */
  readonly hours: {
    readonly time: readonly string[];
    readonly expected_C: readonly (number | null)[];
    readonly band_C: readonly (number | null)[];
    readonly excess_C: readonly (number | null)[];
  };
}

export interface Readings {
  readonly bed: string;
  readonly from: string;
  readonly to: string;
  readonly probes: readonly ProbeColumns[];
  readonly shade: readonly MeasuredColumns[];
}
