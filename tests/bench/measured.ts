/** One figure of one side of a comparison, in the unit of its case. */
export interface Measured {
  readonly value: number;
  /** What helps to understand it. */
  readonly note?: string;
}
