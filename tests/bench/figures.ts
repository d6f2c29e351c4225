/** Figures of our side beside its speed, each with what is asked of it. */
import { mean, median } from 'simple-statistics';

export interface Figure {
  readonly name: string;
  readonly value: number;
  /** Empty for a ratio. */
  readonly unit: string;
  /** Asked for at the most. */
  readonly goal: number;
}

export const isMet = ({ value, goal }: Figure): boolean => value <= goal;

/** A figure of several rounds: its median. @throws Error where a round lacks it */
export function medianFigures(rounds: readonly (readonly Figure[])[]): Figure[] {
  return (rounds[0] ?? []).map((first) => ({
    ...first,
    value: median(rounds.map((figures) => figureNamed(figures, first.name))),
  }));
}

function figureNamed(figures: readonly Figure[], name: string): number {
  const found = figures.find((figure) => figure.name === name);
  if (!found) throw new Error(`expected the figure "${name}" of every round, got a round without it`);
  return found.value;
}

/** Days of a season, [from, to). */
export type Days = readonly [from: number, to: number];

/** By how much the mean of the later days is the mean of the earlier ones. @throws Error where there are fewer days */
export function growthOf(perDay: readonly number[], earlier: Days, later: Days): number {
  const most = Math.max(earlier[1], later[1]);
  if (!(perDay.length >= most)) throw new Error(`expected ${most} days, got ${perDay.length}`);
  return mean(perDay.slice(...later)) / mean(perDay.slice(...earlier));
}
