/** Means by level of each factor, and by how much levels differ, in sentences. */
import type { FactorMeans } from './factorial.js';
import { decimalsFor } from './numbers.js';
import { differenceText, treatmentText } from './words.js';

/** @returns first each level's mean, then what the levels differ by */
export function meansWords({ name, levels, differences }: FactorMeans): string[] {
  const spreads = levels.flatMap(({ sd }) => (sd === null || sd === 0 ? [] : [sd]));
  const decimals = decimalsFor(spreads.length === 0 ? Number.NaN : Math.min(...spreads));
  return [
    ...levels.map((level) => treatmentText(level, decimals, false)),
    ...differences.map((difference) => differenceText(difference, decimals)),
  ].map((line) => `${name} ${line}`);
}
