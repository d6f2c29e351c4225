/** Measures a case in rounds: in each both sides, in turns, so that a machine that drifts hurts both. */
import { median } from 'simple-statistics';
import type { Case, Size } from './cases.js';
import { type Figure, medianFigures } from './figures.js';
import type { Measured } from './measured.js';

export interface Round {
  readonly bare: Measured;
  readonly ours: Measured;
  /** Ours to bare. */
  readonly ratio: number;
}

export interface Comparison {
  readonly name: string;
  readonly what: string;
  readonly bareIs: string;
  readonly unit: string;
  readonly messages: number;
  readonly rounds: readonly Round[];
  readonly ratio: number;
  /** Least and largest ratio of a round. */
  readonly spread: readonly [number, number];
  readonly wanted: number | null;
  /** What else is asked of ours: medians of the rounds. */
  readonly figures: readonly Figure[];
}

export interface CompareOptions {
  readonly rounds: number;
  readonly size: Size;
  readonly onRound: (round: Round, number: number) => void;
}

/** @throws Error where a side failed or its result is not what it must be */
export async function compare(one: Case, { rounds, size, onRound }: CompareOptions): Promise<Comparison> {
  const sides = one.sides(size);
  const done: Round[] = [];
  for (let number = 1; number <= rounds; number += 1) {
    // Who goes first changes: whatever a first run leaves behind hurts each side as often.
    const { bare, ours } = await sides.round(number % 2 === 0);
    const round = { bare, ours, ratio: ours.value / bare.value };
    done.push(round);
    onRound(round, number);
  }
  const ratios = done.map(({ ratio }) => ratio);
  const { name, what, bareIs, unit, wanted = null } = one;
  return {
    ...{ name, what, bareIs, unit, wanted },
    messages: sides.messages,
    rounds: done,
    ratio: median(ratios),
    spread: [Math.min(...ratios), Math.max(...ratios)],
    figures: medianFigures(done.map(({ ours }) => ours.figures ?? [])),
  };
}
