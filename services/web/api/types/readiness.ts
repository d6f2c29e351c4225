/** Whether a bed may be filled, as far as the page reads it. */
export type Met = 'met' | 'not met' | 'unknown';
export type Verdict = 'ready' | 'not ready' | 'unknown';

export interface Limit {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

export interface ReadinessItem {
  readonly id: string;
  readonly question: string;
  readonly state: Met;
  readonly measure: string;
  readonly limit: string;
  readonly limits: readonly Limit[];
  readonly reason: string;
  readonly source: string;
  readonly answeredBy: 'probe' | 'hand';
}

export type BadRoot = 'cut' | 'rotten' | 'weevil-tunnelled' | 'frozen';

/** What only a hand can answer; what is absent was not looked at. */
export interface HandAnswers {
  readonly curing?: {
    readonly days: number;
    readonly temperature_C?: number;
    readonly humidity_RH?: number;
  };
  readonly woundsHealed?: boolean;
  readonly rootsSorted?: readonly BadRoot[];
  readonly rootsCooled?: boolean;
  readonly roofOver?: boolean;
  readonly ditchDug?: boolean;
  readonly polesFirm?: boolean;
  readonly pitOpen_days?: number;
  readonly sandSieved?: boolean;
  readonly sandTemperature_C?: number;
  readonly rodentsKeptOut?: boolean;
  readonly probesInSand?: readonly string[];
  readonly nextLook?: { readonly by: string; readonly at: string };
}

export interface Override {
  readonly by: string;
  readonly at: string;
  readonly reason: string;
}

interface Judged {
  readonly kind: 'stepped-pit' | 'box';
  readonly verdict: Verdict;
  readonly sentence: string;
  readonly notMet: readonly string[];
  readonly unknown: readonly string[];
  readonly items: readonly ReadinessItem[];
  readonly answers: HandAnswers;
}

/** One of `GET /api/beds/{bed}/readiness/records`. */
export interface ReadinessRecord extends Judged {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly overrides: readonly Override[];
}

/** `GET /api/beds/{bed}/readiness`. */
export interface ReadinessNow extends Judged {
  readonly bed: string;
  readonly at: string;
  readonly cautions: readonly string[];
  readonly record: ReadinessRecord | null;
}
