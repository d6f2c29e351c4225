/** M. Friedman's ranks within blocks (1937), corrected for ties; Kendall's W, 0..1, as its size. Titles from memory. */
import type { Test } from './comparison.js';
import { chiSquareP } from './distributions.js';
import { sumOf } from './moments.js';
import type { PerBed } from './per-bed.js';
import { ranksOf } from './ranks.js';

/** @returns null where a block does not hold every treatment once, or ranks never differ */
export function friedman(values: PerBed): { readonly test: Test; readonly w: number } | null {
  const treatments = [...new Set(values.map(({ treatment }) => treatment))];
  const blocks = [...new Set(values.map(({ block }) => block))];
  const table = blocks.map((block) =>
    treatments.map((treatment) =>
      values.filter((one) => one.block === block && one.treatment === treatment).map(({ value }) => value),
    ),
  );
  if (!table.every((row) => row.every((cell) => cell.length === 1))) return null;
  const ranked = table.map((row) => ranksOf(row.map(([value]) => value as number)));
  const [b, k] = [blocks.length, treatments.length];
  const sums = treatments.map((_, at) => sumOf(ranked.map(({ ranks }) => ranks[at] as number)));
  const ties = sumOf(ranked.map((row) => row.ties));
  const scale = b * k * (k + 1) - ties / (k - 1);
  if (!(scale > 0)) return null;
  const value = (12 * sumOf(sums.map((sum) => (sum - (b * (k + 1)) / 2) ** 2))) / scale;
  return {
    test: {
      name: "Friedman's test",
      statistic: 'chi-square',
      value,
      df: [k - 1],
      p: chiSquareP(value, k - 1),
    },
    w: value / (b * (k - 1)),
  };
}
