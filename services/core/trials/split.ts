import type { Split } from './effect-size.js';
import { beyondRounding, momentsOf, moved, sumOf } from './moments.js';
import type { Group } from './per-bed.js';

/** The sum of squares of all beds, split into that between treatments and that within them. */
export function splitOf(groups: readonly Group[]): Split {
  const all = groups.flatMap(({ values }) => values);
  const { origin } = moved(all);
  const moments = groups.map(({ values }) => momentsOf(values.map((value) => value - origin)));
  const mean = sumOf(moments.map((of) => of.n * of.mean)) / all.length;
  return {
    between: sumOf(moments.map((of) => of.n * (of.mean - mean) ** 2)),
    betweenDf: groups.length - 1,
    within: beyondRounding(sumOf(moments.map(({ squares }) => squares)), all),
    withinDf: all.length - groups.length,
    beds: all.length,
  };
}
