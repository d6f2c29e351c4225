import type { Figure } from './figures.js';

/** One figure of one side of a comparison, in the unit of its case. */
export interface Measured {
  readonly value: number;
  /** What helps to understand it. */
  readonly note?: string;
  /** What else is asked of it. */
  readonly figures?: readonly Figure[];
}
