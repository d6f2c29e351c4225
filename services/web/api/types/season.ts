/** The season of a bed, or of several, as the page reads it. */
import type { Moved, Share } from './stock.js';

export interface SeasonOfBed {
  readonly bed: string;
  readonly name: string;
  readonly filledAt: string;
  readonly cultivar: string | null;
  readonly field: string | null;
  readonly lot: string | null;
  readonly filled: number | null;
  readonly filledMass_kg: number | null;
  readonly filledBy: 'ledger' | 'description' | null;
  readonly left: number | null;
  readonly in: readonly Moved[];
  readonly out: readonly Moved[];
  readonly kept_days: number;
  readonly emptied: boolean;
  readonly notLost: {
    readonly share: number;
    readonly low: number | null;
    readonly high: number | null;
  } | null;
  readonly losses: readonly (Share & { readonly cause: string })[];
  readonly warmth: {
    readonly mean_C: number;
    readonly coldest_C: number;
    readonly warmest_C: number;
    readonly measured: number;
    readonly quickRot: number;
  } | null;
  readonly opened: number;
  readonly sprouts: { readonly foundAfter: number; readonly notAfter: number } | null;
  readonly alarms: readonly {
    readonly kind: string;
    readonly raisedAt: string;
    readonly clearedAt: string | null;
    readonly found: string | null;
  }[];
}

export interface Season {
  readonly title: string;
  readonly to: string;
  readonly beds: readonly SeasonOfBed[];
  readonly notes: readonly string[];
}
