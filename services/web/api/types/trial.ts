/** Trials as the page reads them. */
export interface TrialBed {
  readonly bed: string;
  readonly block: string | null;
  readonly treatment: string | null;
}

export interface Trial {
  readonly trial: string;
  /** Of this version. */
  readonly version: string;
  readonly name: string;
  readonly question: string | null;
  readonly at: string;
  readonly by: string;
  readonly from: string;
  readonly to: string | null;
  readonly design: 'complete' | 'blocks';
  readonly treatments: readonly string[];
  /** What is done, by treatment. */
  readonly described: Readonly<Record<string, string>>;
  readonly beds: readonly TrialBed[];
  readonly outcome: { readonly kind: string; readonly day: number };
  readonly assigned: { readonly how: 'chance' | 'hand'; readonly seed: number | null } | null;
  /** Shown, and not in force yet. */
  readonly drawn: {
    readonly seed: number;
    readonly at: string;
    readonly by: string;
    readonly beds: readonly TrialBed[];
  } | null;
  readonly note: string | null;
  /** Why the version before it was changed; of the service where it was drawn. */
  readonly reason: string | null;
}

/** How many beds a trial needs, or what so many find. */
export interface TrialSize {
  readonly bedsOfEach: number;
  readonly bedsInAll: number;
  /** Chance to find the difference where it is there. */
  readonly power: number;
  readonly design: Trial['design'];
  readonly treatments: number;
  readonly difference: number;
  readonly sd: number;
  readonly alpha: number;
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
