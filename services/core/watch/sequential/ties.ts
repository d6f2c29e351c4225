/** Equal values among ranks, and what they take from the variance of Kendall's sum. */

/** Sizes of the groups of equal values, groups of one left out. */
export function tieGroups(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}

const term = (count: number): number => (count * (count - 1) * (2 * count + 5)) / 18;

const sumOf = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + term(count), 0);

/**
 * Variance of Kendall's sum (pairs that rise less pairs that fall) where nothing is related:
 * (n(n-1)(2n+5) - sum over tied groups of t(t-1)(2t+5)) / 18. M. G. Kendall, Rank Correlation Methods (from memory);
 * EPA QA/G-9S (2006).
 *
 * @remarks With ties in both x and y the two products that the full formula adds are left out: they are small, and
 * the interval after Sen leaves them out too.
 */
export function pairVariance(xs: readonly number[], ys: readonly number[]): number {
  return term(xs.length) - sumOf(tieGroups(xs)) - sumOf(tieGroups(ys));
}
