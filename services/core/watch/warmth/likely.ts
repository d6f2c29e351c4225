/** The likeliest source of a step as data, for a watch that is kept and goes on later. */
import type { Bank, LikelySource } from './bank.js';
import type { Reading } from './search.js';

export interface LikelySaved {
  /** Step in which it began. */
  readonly step: number;
  /** Number of its place among those that are tried. */
  readonly place: number;
  readonly power: number;
}

export function saveLikely(
  likely: LikelySource | undefined,
  readings: readonly LikelySource['reading'][],
): LikelySaved | null {
  if (!likely) return null;
  const { onset, reading, power } = likely;
  return { step: onset.step, place: readings.indexOf(reading), power };
}

export function restoreLikely(
  saved: LikelySaved | null,
  bank: Bank,
  readings: readonly Reading[],
): LikelySource | undefined {
  if (!saved) return undefined;
  const onset = bank.onsets.find(({ step }) => step === saved.step);
  const reading = readings[saved.place];
  return onset && reading ? { onset, reading, power: saved.power } : undefined;
}
