/**
 * Which partition a worker should take or leave next. Pure: what is wrong or late in what it is told of others costs time
 * alone, for a partition is held by whoever has the lock of its folder, and by nobody else.
 */

/** How the partitions are held, as one worker sees it. */
export interface Holdings {
  readonly partitions: number;
  readonly mine: readonly number[];
  /** What each other worker that lives says that it holds, by its name. */
  readonly others: ReadonlyMap<string, readonly number[]>;
  /** Name of this worker. */
  readonly self: string;
  /** By partition: for how long nobody has held it, ms. */
  readonly free: ReadonlyMap<number, number>;
}

export type NextStep =
  | { readonly take: readonly number[] }
  | { readonly leave: number }
  | { readonly wait: true };

/** So long a free partition is left to workers that hold less, ms: then whoever sees it takes it. Judgement. */
export const PATIENCE_ms = 3_000;

const WAIT: NextStep = { wait: true };

export function nextStep(holdings: Holdings): NextStep {
  const { mine, free } = holdings;
  const leastOfOthers = Math.min(...[...holdings.others.values()].map(({ length }) => length));
  if (free.size > 0) {
    const isMyTurn = mine.length <= leastOfOthers;
    const take = [...free].filter(([, free_ms]) => isMyTurn || free_ms >= PATIENCE_ms);
    return take.length > 0
      ? {
          take: inTurn(
            take.map(([partition]) => partition),
            holdings,
          ),
        }
      : WAIT;
  }
  const leave = mine.length > leastOfOthers + 1 && hasMost(holdings) ? mine.at(-1) : undefined;
  return leave === undefined ? WAIT : { leave };
}

/** Of several with as many the first by name: one at a time leaves one. */
function hasMost({ mine, others, self }: Holdings): boolean {
  return [...others].every(
    ([name, { length }]) => length < mine.length || (length === mine.length && self < name),
  );
}

/** Each worker begins at another place, so that those that start together seldom reach for the same. */
function inTurn(partitions: readonly number[], { others, self }: Holdings): number[] {
  const place = [...others.keys()].filter((name) => name < self).length;
  const from = Math.floor((place * partitions.length) / (others.size + 1));
  return [...partitions.slice(from), ...partitions.slice(0, from)];
}
