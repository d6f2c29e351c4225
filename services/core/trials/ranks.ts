/** Ranks from 1, with the mean rank for equal values, and what the ties take from the variance of ranks. */
export interface Ranked {
  readonly ranks: readonly number[];
  /** Sum of t^3 - t over groups of t equal values. */
  readonly ties: number;
}

export function ranksOf(values: readonly number[]): Ranked {
  const order = values.map((value, at) => ({ value, at })).sort((one, other) => one.value - other.value);
  const ranks = values.map(() => 0);
  let ties = 0;
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && order[to]?.value === order[from]?.value) to += 1;
    for (const { at } of order.slice(from, to)) ranks[at] = (from + 1 + to) / 2;
    const equal = to - from;
    ties += equal ** 3 - equal;
    from = to;
  }
  return { ranks, ties };
}
