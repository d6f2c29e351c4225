/** What will be left of a bed, as the page reads it. */
import type { Likely } from './stock.js';

/** Between 10 and 90 %. */
export interface Band {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export interface MonthAhead {
  readonly to: string;
  readonly mean_C: number;
  readonly warmthFrom: string;
  readonly left: Band;
  /** So cold or hot that more is lost than this says. */
  readonly outside: boolean;
}

export interface Held {
  readonly month: number;
  /** Shares of the price of now; null where no rise does. */
  readonly rise: {
    readonly ifFewAreLost: number | null;
    readonly likely: number | null;
    readonly ifManyAreLost: number | null;
  };
  readonly breakEvenPrice: number | null;
  readonly holding: 'pays' | 'does-not-pay' | 'open' | null;
}

export interface Outlook {
  readonly bed: string;
  readonly name: string;
  readonly at: string;
  readonly since: string;
  readonly roots: number;
  readonly months: readonly MonthAhead[];
  readonly weeksOfFood: Likely | null;
  readonly rootsPerMonth: Band;
  readonly priceOfRoot: number | null;
  readonly holdOrSell: readonly Held[] | null;
  readonly notes: readonly string[];
}
