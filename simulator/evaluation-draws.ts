/** What a season for evaluation draws from its seed, each by a name of its own. */
import { randomFor } from './random.js';

export class Draws {
  readonly #seed: number;
  readonly #scenario: string;

  constructor(seed: number, scenario: string) {
    this.#seed = seed;
    this.#scenario = scenario;
  }

  #random(name: string): number {
    return randomFor(this.#seed, 'evaluation', this.#scenario, name)();
  }

  between(name: string, low: number, high: number): number {
    return low + (high - low) * this.#random(name);
  }

  /** A whole number, both ends among them. */
  whole(name: string, low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.#random(name));
  }

  chance(name: string, share: number): boolean {
    return this.#random(name) < share;
  }

  pick<Item>(name: string, items: readonly [Item, ...Item[]]): Item {
    return items[Math.floor(items.length * this.#random(name))] ?? items[0];
  }

  /** Some of the items, in an order of their own. */
  some<Item>(name: string, items: readonly Item[], count: number): Item[] {
    return items
      .map((item, index) => ({ item, rank: this.#random(`${name} ${index}`) }))
      .sort((one, other) => one.rank - other.rank)
      .slice(0, count)
      .map(({ item }) => item);
  }
}
