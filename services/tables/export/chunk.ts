/** Readings on their way into a file: some rows of one probe at one place, column by column. */
import type { Quantity } from '../../core/model/quantity.js';

/** Where a probe stood; of one in the shade outside, bed and position are null. */
export interface ExportPlace {
  readonly site: string;
  readonly bed: string | null;
  readonly probe: string;
  /** cm from the north-west corner of the opening, and down from the top of the sand. */
  readonly position: { readonly x: number; readonly y: number; readonly depth: number } | null;
}

export type Numbers = readonly (number | null)[];

/** One quantity, as long as the times. A column that is null is empty throughout. */
export interface ExportQuantity {
  readonly quantity: Quantity;
  readonly unit: string;
  /** As measured; where it is null nothing was, and there is no row. */
  readonly raw: Numbers;
  /** Null where all of it is as measured. */
  readonly corrected: Numbers | null;
  /** Expanded, k = 2. */
  readonly uncertainty: Numbers | null;
  readonly flags: readonly (string | null)[] | null;
  /** What the watch made of the hour: of temperatures. */
  readonly judged: readonly (JudgedHour | null)[] | null;
  /** Of hours: how many values, and the least and the greatest as measured. */
  readonly spread: { readonly count: Numbers; readonly least: Numbers; readonly greatest: Numbers } | null;
}

export interface JudgedHour {
  readonly expected: number | null;
  readonly band: number | null;
  readonly excess: number | null;
}

export interface ExportChunk {
  readonly place: ExportPlace;
  readonly treatment: string | null;
  /** Single readings, or what is kept of whole hours. */
  readonly of: 'reading' | 'hour';
  /** Event times, ascending, ms. */
  readonly time: readonly number[];
  readonly quantities: readonly ExportQuantity[];
}

/** In the order in which they are written. */
export type ExportChunks = Iterable<ExportChunk> | AsyncIterable<ExportChunk>;
