/** What is asked of the outlook: kept on this device, put into an address. */
import { keptNow } from '../../parts/kept.js';
import { Typed } from '../../parts/typed.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';
import { askEating, type EatingTyped, MONTHS } from '../stock/eating.js';

export interface PricesTyped {
  readonly months: string;
  readonly price: string;
  readonly per: 'root' | 'kg';
  readonly cost: string;
  readonly interest: string;
  readonly expected: string;
  /** The person's own word for their money. */
  readonly money: string;
}

export const PRICES_KEPT = 'prices';

const NO_PRICES: PricesTyped = {
  ...{ months: '6', price: '', per: 'root', cost: '', interest: '', expected: '', money: '' },
};

export const pricesKept = (): PricesTyped => ({ ...NO_PRICES, ...keptNow(PRICES_KEPT, NO_PRICES) });

const PRICE = { least: 0.000_001, most: 1_000_000_000 };
const COST = { least: 0, most: 1_000_000_000 };
const PERCENT = { least: 0, most: 100 };

/** @throws NotAsExpected */
export function outlookAddress(bed: string, prices: PricesTyped, eating: EatingTyped): string {
  const typed = new Typed();
  const query = new URLSearchParams();
  query.set('months', String(typed.number('months', prices.months, MONTHS)));
  askEating(typed, eating, query);
  askPrices(typed, prices, query);
  typed.done();
  return `/api/beds/${encodeURIComponent(bed)}/outlook?${query}`;
}

function askPrices(typed: Typed, prices: PricesTyped, query: URLSearchParams): void {
  const put = (key: string, value: number | undefined): void => {
    if (value !== undefined) query.set(key, plain(value));
  };
  const { price, per, cost, interest, expected } = prices;
  const others = [cost, interest, expected].filter((text) => (typedNumber(text) ?? 0) !== 0);
  if (price.trim() === '' && others.length > 0) typed.wrong('price', say('outlook.priceFirst'));
  put(per === 'root' ? 'price' : 'pricePerKg', typed.maybe('price', price, PRICE));
  put('costPerMonth', typed.maybe('costPerMonth', cost, COST) || undefined);
  put('interestPercent', typed.maybe('interestPercent', interest, PERCENT) || undefined);
  put('expectedPrice', typed.maybe('expectedPrice', expected, PRICE));
}

/** Without an exponent: an address takes digits and a point. */
const plain = (value: number): string => value.toFixed(6).replace(/\.?0+$/, '');
