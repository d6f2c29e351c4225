/** Round numbers for a scale from 0. */

/** How many at the most, 0 and the last included. */
const MOST = 5;

/** Steps of 1, 2 or 5 times a power of ten from 0 to the first that is not below `most`. @param most above 0 */
export function roundTicks(most: number): number[] {
  if (!(most > 0)) return [0, 1];
  const rough = most / (MOST - 1);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = Math.max(1, power * ([1, 2, 5, 10].find((times) => times * power >= rough) ?? 10));
  return Array.from({ length: Math.ceil(most / step) + 1 }, (_, index) => index * step);
}
