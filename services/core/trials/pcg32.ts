/**
 * Chance that can be drawn again: PCG32, the generator PCG-XSH-RR with 64 bits of state (M. E. O'Neill, PCG: A Family of
 * Simple Fast Space-Efficient Statistically Good Algorithms for Random Number Generation, Harvey Mudd College
 * HMC-CS-2014-0905, 2014). Held against the output of its author's demonstration in the tests.
 */
import { SandlarderError } from '../errors.js';

const MULTIPLIER = 6_364_136_223_846_793_005n;
const WORD = 64;
const HALF = 0x1_0000_0000;

export class Pcg32 {
  #state = 0n;
  readonly #increment: bigint;

  /** @param stream any whole number: with each the same seed gives other numbers */
  constructor(seed: bigint, stream: bigint) {
    this.#increment = BigInt.asUintN(WORD, (stream << 1n) | 1n);
    this.next();
    this.#state = BigInt.asUintN(WORD, this.#state + seed);
    this.next();
  }

  /** A whole number of 32 bits. */
  next(): number {
    const before = this.#state;
    this.#state = BigInt.asUintN(WORD, before * MULTIPLIER + this.#increment);
    const shifted = Number(BigInt.asUintN(32, ((before >> 18n) ^ before) >> 27n));
    const turn = Number(before >> 59n);
    return ((shifted >>> turn) | (shifted << (-turn & 31))) >>> 0;
  }

  /**
   * A whole number from 0 to `bound` - 1, each with the same chance: what would favour the first is drawn again.
   *
   * @throws SandlarderError OUT_OF_DOMAIN
   */
  below(bound: number): number {
    if (!(Number.isInteger(bound) && bound >= 1 && bound < HALF))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `bound: expected a whole number from 1 to 2^32 - 1, got ${bound}`,
      );
    const least = (HALF - bound) % bound;
    for (;;) {
      const drawn = this.next();
      if (drawn >= least) return drawn % bound;
    }
  }

  /** A new list in an order drawn by chance (R. A. Fisher & F. Yates; R. Durstenfeld 1964: from the last place down). */
  shuffled<Item>(items: readonly Item[]): Item[] {
    const list = [...items];
    for (let left = list.length; left > 1; left -= 1) {
      const chosen = this.below(left);
      [list[chosen], list[left - 1]] = [list[left - 1] as Item, list[chosen] as Item];
    }
    return list;
  }
}

/** Seeds as people write them down: whole numbers of up to nine digits. */
export const SEED_MOST = 999_999_999;

/** Of everything drawn here. */
const STREAM = 54n;

/** @throws SandlarderError OUT_OF_DOMAIN */
export function chanceOf(seed: number): Pcg32 {
  if (!(Number.isInteger(seed) && seed >= 0 && seed <= SEED_MOST))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `seed: expected a whole number from 0 to ${SEED_MOST}, got ${seed}`,
    );
  return new Pcg32(BigInt(seed), STREAM);
}
