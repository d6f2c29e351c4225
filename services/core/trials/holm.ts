/** S. Holm, Scand. J. Stat. 6 (1979) 65-70: p of several tests together, without asking how they hang together. */

/** @param ps 0..1, in any order @returns the corrected ones in the same order */
export function holm(ps: readonly number[]): number[] {
  const order = ps.map((p, at) => ({ p, at })).sort((one, other) => one.p - other.p);
  const corrected = ps.map(() => 1);
  let least = 0;
  order.forEach(({ p, at }, rank) => {
    least = Math.max(least, Math.min(1, (ps.length - rank) * p));
    corrected[at] = least;
  });
  return corrected;
}
