/**
 * Sell now or hold: by how much the price must rise before holding pays, from the user's own prices and costs. No price
 * and no rise is built in: none is published for sweet potato.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import type { Band } from './outlook.js';

export interface HoldOrSell {
  /** Roots there now, above 0. */
  readonly roots: number;
  /** Price of a root now, in the user's money, above 0. */
  readonly priceNow: number;
  /** What keeping costs a month, in the same money: watchman, rent, transport put off. 0 where nothing. */
  readonly costPerMonth: number;
  /** Share that money earns, or costs, in a month: 0.02 for a loan at 2 % a month. 0 where that does not count. */
  readonly interestPerMonth: number;
  /** Roots left at the end of each month. */
  readonly left: readonly Band[];
}

export interface BreakEven {
  /** Months from now, 1 first. */
  readonly month: number;
  /** Rise of the price, as a share of it, at which holding until then gives as much as selling now; null: none does. */
  readonly rise: {
    readonly ifFewAreLost: number | null;
    readonly likely: number | null;
    readonly ifManyAreLost: number | null;
  };
}

/**
 * Break-even by month. A month's cost is paid at its end; interest is on the money that selling now would bring, and on
 * costs paid before the sale.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for numbers out of range, and for more roots left than there are
 */
export function breakEvenByMonth(task: HoldOrSell): BreakEven[] {
  const { roots, priceNow, costPerMonth, interestPerMonth, left } = task;
  requireInDomain('roots', roots, 1, 1e6);
  requireInDomain('price of a root', priceNow, 1e-9, 1e12);
  requireInDomain('cost of a month', costPerMonth, 0, 1e15);
  requireInDomain('interest of a month, as a share,', interestPerMonth, 0, 1);
  let needed = roots * priceNow;
  return left.map(({ low, likely, high }, index) => {
    for (const share of [low, likely, high]) requireInDomain('roots left', share, 0, roots);
    needed = needed * (1 + interestPerMonth) + costPerMonth;
    const riseAt = (then: number): number | null => (then === 0 ? null : needed / then / priceNow - 1);
    return {
      month: index + 1,
      rise: { ifFewAreLost: riseAt(high), likely: riseAt(likely), ifManyAreLost: riseAt(low) },
    };
  });
}

export const HOLDING = ['pays', 'does-not-pay', 'open'] as const;
export type Holding = (typeof HOLDING)[number];

/**
 * What a price that the user expects says of holding until then.
 *
 * @param expectedPrice of a root then, in the user's money
 * @returns `pays` where it does even if many are lost, `does-not-pay` where it does not even if few are
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function holdingAt({ rise }: BreakEven, priceNow: number, expectedPrice: number): Holding {
  requireInDomain('price of a root', priceNow, 1e-9, 1e12);
  requireInDomain('expected price of a root', expectedPrice, 0, 1e12);
  const expected = expectedPrice / priceNow - 1;
  const { ifFewAreLost, ifManyAreLost } = rise;
  if (ifFewAreLost === null || expected < ifFewAreLost) return 'does-not-pay';
  return ifManyAreLost !== null && expected >= ifManyAreLost ? 'pays' : 'open';
}

/**
 * Price of a root from that of a kilogram.
 *
 * @throws SandlarderError OUT_OF_DOMAIN; BAD_REQUEST where the mass of a root is not known
 */
export function pricePerRoot(pricePerKg: number, rootMass_kg: number | undefined): number {
  requireInDomain('price of a kg', pricePerKg, 1e-9, 1e12);
  if (rootMass_kg === undefined)
    throw new SandlarderError(
      'BAD_REQUEST',
      'price: expected that of a root, as the bed was not weighed when it was filled, got that of a kg',
    );
  requireInDomain('mass of a root, kg,', rootMass_kg, 0.005, 10);
  return pricePerKg * rootMass_kg;
}
