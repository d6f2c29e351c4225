/** What a table of thresholds is made of. */

export interface Threshold {
  readonly unit: string;
  readonly default: number;
  readonly low: number;
  readonly high: number;
  /** Where the default comes from: published, or `judgement`, `common practice, no source`, `from memory`. */
  readonly source: string;
  /** What it decides, in a sentence. */
  readonly meaning: string;
}

/** A threshold from its parts; the bounds are what it can be set to. */
export const threshold = (
  unit: string,
  value: number,
  [low, high]: readonly [number, number],
  source: string,
  meaning: string,
): Threshold => ({ unit, default: value, low, high, source, meaning });
