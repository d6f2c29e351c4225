/** Trials as the page reads them. */
export interface Trial {
  readonly trial: string;
  readonly name: string;
  readonly question: string | null;
  readonly from: string;
  readonly to: string | null;
  readonly treatments: readonly string[];
  readonly beds: readonly {
    readonly bed: string;
    readonly block: string | null;
    readonly treatment: string | null;
  }[];
  readonly outcome: { readonly kind: string; readonly day: number };
  readonly assigned: { readonly how: 'chance' | 'hand'; readonly seed: number | null } | null;
}

/** Sentences of the service. */
export interface Words {
  readonly tests: readonly string[];
  readonly assumptions: readonly string[];
  readonly meaning: readonly string[];
}

export interface TrialResult {
  readonly rows: readonly {
    readonly bed: string;
    readonly treatment: string;
    readonly block: string | null;
    readonly value: number | null;
    readonly day: number | null;
    readonly reached: boolean | null;
    readonly missing: string | null;
  }[];
  readonly comparison: {
    readonly differences: readonly {
      readonly from: string;
      readonly to: string;
      readonly difference: { readonly estimate: number; readonly low: number; readonly high: number };
    }[];
  } | null;
  readonly words: Words | null;
  readonly survivalWords: Words | null;
  readonly missing: readonly string[];
}

export type CurvesOf = 'loss' | 'excess';
export type CurvesBy = 'filling' | 'calendar';

export interface CurvePoint {
  readonly time: number;
  readonly beds: number;
  readonly mean: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface Curves {
  readonly treatments: readonly { readonly treatment: string; readonly points: readonly CurvePoint[] }[];
}
