/** What the bench reads of `/api/bench` and `/api/calibrations`. Times are ISO 8601; values in °C or %RH. */

export type Quantity = 'temperature' | 'humidity';

export interface Capture {
  readonly probe: string;
  readonly indicated: number;
  readonly uncertainty: number;
  readonly count: number;
}

export interface BenchPoint {
  readonly number: number;
  readonly startedAt: string;
  readonly label: string;
  readonly basis: string;
  readonly reference: number;
  /** Standard, k = 1. */
  readonly referenceUncertainty: number;
  readonly captured: readonly Capture[];
}

export interface ProbeSettling {
  readonly probe: string;
  readonly captured: boolean;
  readonly settled: boolean;
  readonly words: string;
  readonly reason: string;
  readonly latest: number | null;
  readonly slope_perMinute: number | null;
  readonly readings: number;
  readonly trace: readonly { readonly at: string; readonly value: number }[];
}

export interface Bench {
  readonly id: string;
  readonly site: string;
  readonly quantity: Quantity;
  readonly probes: readonly string[];
  readonly by: string;
  readonly startedAt: string;
  readonly state: 'open' | 'finished' | 'given-up';
  readonly reason: string | null;
  readonly points: readonly BenchPoint[];
  readonly settling: readonly ProbeSettling[];
  readonly warnings: readonly string[];
  readonly cautions: readonly string[];
  readonly calibrations: readonly string[];
  readonly finishedProbes: readonly string[];
}

export interface Captured extends Bench {
  readonly waiting: readonly { readonly probe: string; readonly reason: string }[];
}

export interface Residual {
  readonly index: number;
  readonly residual: number;
}

export interface Calibration {
  readonly id: string;
  readonly site: string;
  readonly probe: string;
  readonly quantity: Quantity;
  readonly from: string;
  readonly doneAt: string;
  readonly by: string;
  readonly reference: { readonly name: string; readonly serial?: string };
  readonly points: readonly {
    readonly indicated: number;
    readonly reference: number;
    readonly referenceUncertainty: number;
    readonly label?: string;
  }[];
  readonly fit: {
    readonly form: string;
    readonly reason: string;
    readonly centre: number;
    readonly coefficients: readonly number[];
    readonly range: readonly number[];
    readonly residuals: readonly Residual[];
    readonly outliers: readonly Residual[];
    readonly leftOut: readonly (Residual & { readonly reason: string })[];
  };
  readonly asFound: { readonly largest: number; readonly tolerance: number; readonly exceeds: boolean };
  readonly uncertainty: { readonly indicated: number; readonly expanded: number };
  readonly cautions: readonly string[];
  readonly inForce: boolean;
}

export interface Fit {
  readonly probe: string;
  readonly calibration: Calibration | null;
  readonly problem: string | null;
}

export interface Due {
  readonly site: string;
  readonly probe: string;
  readonly quantity: Quantity;
  readonly calibration: string | null;
  readonly dueAt: string | null;
  readonly isDue: boolean;
}

export interface Salt {
  readonly id: string;
  readonly name: string;
  readonly formula: string;
  readonly at25_C: { readonly humidity_RH: number };
  readonly cautions: readonly string[];
}

export interface FieldCheck {
  readonly id: string;
  readonly probe: string;
  readonly reference: string;
  readonly quantity: Quantity;
  readonly from: string;
  readonly to: string;
  readonly bound: number;
  readonly difference: number;
  readonly expandedUncertainty: number;
  readonly pairs: number;
  readonly verdict: 'agrees' | 'disagrees' | 'undecided';
}
