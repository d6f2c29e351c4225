/**
 * What chance alone would do: treatments are given to the same beds anew, as they were given at first, and the differences
 * counted that are as large as the one found (randomisation test, R. A. Fisher 1935; p with the draw itself counted in, B.
 * Phipson & G. K. Smyth 2010; titles from memory).
 */
import { gammaln } from 'simple-statistics';
import { sumOf } from './moments.js';
import { chanceOf } from './pcg32.js';
import type { PerBed } from './per-bed.js';

export const PERMUTATIONS = 9999;
export const PERMUTATION_SEED = 1;

/** Sums that differ by rounding only count as equal. */
const ROUNDING = 1e-9;

export interface Permutation {
  readonly p: number;
  readonly draws: number;
  readonly seed: number;
  /** Different ways of giving these treatments to these beds. */
  readonly ways: number;
}

/** Of values by bed; within blocks where every bed has one. */
export function permutationTest(values: PerBed): Permutation {
  const numbers = values.map(({ value }) => value);
  const names = values.map(({ treatment }) => treatment);
  const places = placesOf(values);
  const found = between(names, numbers);
  const chance = chanceOf(PERMUTATION_SEED);
  const drawn = [...names];
  let asLarge = 0;
  for (let draw = 0; draw < PERMUTATIONS; draw += 1) {
    for (const block of places) {
      const shuffled = chance.shuffled(block.map((at) => names[at] as string));
      block.forEach((at, nth) => {
        drawn[at] = shuffled[nth] as string;
      });
    }
    if (between(drawn, numbers) >= found * (1 - ROUNDING)) asLarge += 1;
  }
  const ways = places.reduce((product, block) => product * waysOf(block.map((at) => names[at] as string)), 1);
  return { p: (asLarge + 1) / (PERMUTATIONS + 1), draws: PERMUTATIONS, seed: PERMUTATION_SEED, ways };
}

/** Places of the beds of each block; all together where a bed has none. */
function placesOf(values: PerBed): number[][] {
  const all = values.map((_, at) => at);
  if (values.some(({ block }) => block === undefined)) return [all];
  const blocks = [...new Set(values.map(({ block }) => block))];
  return blocks.map((block) => all.filter((at) => values[at]?.block === block));
}

/** Sum of squares between treatments, but for what is the same for every draw. */
function between(names: readonly string[], numbers: readonly number[]): number {
  const sums = new Map<string, { sum: number; n: number }>();
  names.forEach((name, at) => {
    const { sum, n } = sums.get(name) ?? { sum: 0, n: 0 };
    sums.set(name, { sum: sum + (numbers[at] as number), n: n + 1 });
  });
  const all = sumOf(numbers) / numbers.length;
  return sumOf([...sums.values()].map(({ sum, n }) => n * (sum / n - all) ** 2));
}

const factorial = (n: number): number => gammaln(n + 1);

/** Rounded: it is for people. */
function waysOf(names: readonly string[]): number {
  const counts = [...new Set(names)].map((name) => names.filter((other) => other === name).length);
  return Math.round(Math.exp(factorial(names.length) - sumOf(counts.map(factorial))));
}
