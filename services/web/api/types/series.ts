/** What the plots of a bed read of the service. */

export interface FlaggedAnswer {
  readonly at: string;
  readonly quantity: 'temperature' | 'humidity';
  readonly reason: string;
  readonly value: number;
}

type Column = readonly (number | null)[];
export type DoubtAnswer = 'outside' | 'drifted' | null;

export const READ_FROM = ['full-rate', 'hours', 'long-archive'] as const;
export type ReadFrom = (typeof READ_FROM)[number];

export interface MeasuredAnswer {
  readonly probe: string;
  readonly depth?: number;
  readonly time: readonly string[];
  readonly temperature_C: Column;
  readonly temperatureUncertainty_C: Column;
  readonly temperatureDoubt: readonly DoubtAnswer[];
  readonly humidity_RH: Column;
  readonly humidityUncertainty_RH: Column;
  readonly flagged: readonly FlaggedAnswer[];
  readonly thinned: boolean;
  /** Absent in what a device keeps from earlier versions. */
  readonly readFrom?: readonly ReadFrom[];
  /** Absent in the shade. */
  readonly hours?: {
    readonly time: readonly string[];
    readonly expected_C: Column;
    readonly band_C: Column;
    readonly excess_C: Column;
  };
}

export interface ReadingsAnswer {
  readonly probes: readonly MeasuredAnswer[];
  readonly shade: readonly MeasuredAnswer[];
  /** Why older readings are given by hours though there is a long archive; English. */
  readonly note?: string | null;
}

export type NoShare = 'no-shade' | 'little-swing' | 'too-few-hours' | 'handled';

export interface ProbeSwingAnswer {
  readonly probe: string;
  readonly depth: number;
  readonly lets: {
    readonly dry: number;
    readonly dampFrom: number;
    readonly wetFrom: number;
    readonly factor: number;
  } | null;
  readonly time: readonly string[];
  readonly share: Column;
  readonly uncertainty: Column;
  readonly atMost: readonly boolean[];
  readonly because: readonly (NoShare | null)[];
}

export interface SwingAnswer {
  readonly shade: readonly string[];
  readonly missing: string | null;
  readonly threshold: { readonly value: number };
  readonly probes: readonly ProbeSwingAnswer[];
}

export interface EventAnswer {
  readonly id: string;
  readonly at: string;
  readonly kind: string;
  readonly text: string;
  readonly about: {
    readonly alarm?: string;
    readonly inspection?: string;
    readonly filling?: string;
    readonly calibration?: string;
    readonly stock?: string;
    readonly readiness?: string;
    readonly probe?: string;
  };
}
