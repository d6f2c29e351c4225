/** Every pair of a list, the earlier one first. */
export const pairsOf = <Item>(items: readonly Item[]): (readonly [Item, Item])[] =>
  items.flatMap((one, at) => items.slice(at + 1).map((other) => [one, other] as const));
