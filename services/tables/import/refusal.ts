/** Why a line of a table, or one of its values, was not taken. */

export const REFUSALS = [
  'quotes',
  'columns',
  'time-unreadable',
  'time-without-zone',
  'time-repeated',
  'time-skipped',
  'time-too-early',
  'time-in-future',
  'probe-unreadable',
  'value-unreadable',
  'value-out-of-range',
] as const;

export interface Refusal {
  readonly reason: (typeof REFUSALS)[number];
  /** What was expected and what came, in a sentence. */
  readonly detail: string;
}

/** One with where it stands. */
export interface RefusedLine {
  /** Line on which the record begins, from 1. */
  readonly line: number;
  /** Name of the column; empty where it concerns the whole line. */
  readonly column: string;
  /** One of `REFUSALS`, or why the store set a value aside. */
  readonly reason: string;
  readonly detail: string;
  /** The record as it was read, its fields joined as they came. */
  readonly text: string;
}
