/** The ledger of a bed, as the page reads it. */

/** Between 10 and 90 %; a null in it is more than a year. */
export interface Likely {
  readonly low: number | null;
  readonly likely: number | null;
  readonly high: number | null;
}

/** A share, 0..1, with its 95 % interval. */
export interface Share {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

export interface Moved {
  readonly reason: string;
  readonly roots: number;
  readonly mass_kg: number | null;
}

export interface StockEntry {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly kind: 'in' | 'out' | 'counter';
  readonly reason: string;
  readonly roots: number;
  readonly mass_kg?: number;
  /** Entry that a counter-entry takes back. */
  readonly of?: string;
  /** The filling or inspection that it follows from. */
  readonly origin: string | null;
}

export interface Stock {
  readonly bed: string;
  readonly since: string | null;
  /** Roots; null where nobody wrote down what went in. */
  readonly left: number | null;
  readonly leftMass_kg: number | null;
  readonly in: readonly Moved[];
  readonly out: readonly Moved[];
  readonly losses: readonly (Share & { readonly cause: string })[];
  readonly weeksOfFood: Likely | null;
  readonly rootsPerMonth: Likely | null;
  readonly notes: readonly string[];
  readonly entries: readonly StockEntry[];
}

/** An entry as it is sent. */
export interface EntryBody {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly kind: 'in' | 'out' | 'counter';
  readonly reason: string;
  readonly roots: number;
  readonly mass_kg?: number;
  readonly of?: string;
}

export interface Stocked {
  readonly left: number | null;
}
