import type { Quantity } from './quantity.js';

/** What one probe measured at one time; a quantity that it did not measure is absent. */
export interface Reading {
  /** Event time, ms. */
  readonly time: number;
  /** Raw values in the units of `STORED_UNIT`. */
  readonly values: Readonly<Partial<Record<Quantity, number>>>;
}
