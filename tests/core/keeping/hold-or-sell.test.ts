import { describe, expect, test } from 'vitest';
import {
  breakEvenByMonth,
  type HoldOrSell,
  holdingAt,
  pricePerRoot,
} from '../../../services/core/keeping/hold-or-sell.js';

const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });
const task = (change: Partial<HoldOrSell> = {}): HoldOrSell =>
  Object.freeze({
    roots: 100,
    priceNow: 5,
    costPerMonth: 0,
    interestPerMonth: 0,
    left: [{ low: 50, likely: 70, high: 100 }],
    ...change,
  });

describe('break-even', () => {
  test('a loss of 30 % needs a rise of 43 % (1/0.7 - 1); none needs none, half needs double', () => {
    const [month] = breakEvenByMonth(task());
    expect(month?.month).toBe(1);
    expect(month?.rise.likely).toBeCloseTo(0.428571, 6);
    expect(month?.rise.ifFewAreLost).toBe(0);
    expect(month?.rise.ifManyAreLost).toBe(1);
  });

  test('cost and interest, by hand: (500 * 1.02 + 20) * 1.02 + 20 over 80 roots of 5', () => {
    const left = [90, 80].map((roots) => ({ low: roots, likely: roots, high: roots }));
    const months = breakEvenByMonth(task({ costPerMonth: 20, interestPerMonth: 0.02, left }));
    expect(months[0]?.rise.likely).toBeCloseTo(530 / 450 - 1, 12);
    expect(months[1]?.rise.likely).toBeCloseTo(560.6 / 400 - 1, 12);
  });

  test('no price pays where none is left', () => {
    const [month] = breakEvenByMonth(task({ left: [{ low: 0, likely: 0, high: 10 }] }));
    expect(month?.rise).toEqual({ ifFewAreLost: 9, likely: null, ifManyAreLost: null });
  });

  test('does not depend on the money that it is counted in', () => {
    const one = breakEvenByMonth(task({ costPerMonth: 20 }));
    const other = breakEvenByMonth(task({ costPerMonth: 20_000, priceNow: 5000 }));
    expect(other[0]?.rise.likely).toBeCloseTo(one[0]?.rise.likely ?? Number.NaN, 12);
  });

  test.each<[string, Partial<HoldOrSell>]>([
    ['no roots', { roots: 0 }],
    ['no price', { priceNow: 0 }],
    ['a price that is none', { priceNow: Number.NaN }],
    ['a cost below nothing', { costPerMonth: -1 }],
    ['interest in percent', { interestPerMonth: 2 }],
    ['more left than there are', { left: [{ low: 50, likely: 70, high: 101 }] }],
    ['left that is no number', { left: [{ low: Number.NaN, likely: 70, high: 100 }] }],
  ])('%s: refused', (_, change) => {
    expect(() => breakEvenByMonth(task(change))).toThrow(outOfDomain);
  });
});

describe('an expected price', () => {
  const [month] = breakEvenByMonth(task({ left: [{ low: 50, likely: 70, high: 80 }] }));

  test.each([
    [6.24, 'does-not-pay'],
    [6.26, 'open'],
    [9.99, 'open'],
    [10, 'pays'],
    [0, 'does-not-pay'],
  ] as const)('%d: %s', (expectedPrice, verdict) => {
    expect(month && holdingAt(month, 5, expectedPrice)).toBe(verdict);
  });

  test('where all may be lost it never pays for certain', () => {
    const rise = { ifFewAreLost: 0.1, likely: 0.5, ifManyAreLost: null };
    expect(holdingAt({ month: 1, rise }, 5, 1000)).toBe('open');
    const gone = { ifFewAreLost: null, likely: null, ifManyAreLost: null };
    expect(holdingAt({ month: 1, rise: gone }, 5, 1000)).toBe('does-not-pay');
  });

  test.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('%d is refused', (price) => {
    expect(() => month && holdingAt(month, 5, price)).toThrow(outOfDomain);
    expect(() => month && holdingAt(month, price, 5)).toThrow(outOfDomain);
  });
});

test('a price a kilogram, by the mass of a root', () => {
  expect(pricePerRoot(20, 0.25)).toBe(5);
  expect(() => pricePerRoot(20, undefined)).toThrow(expect.objectContaining({ code: 'BAD_REQUEST' }));
  for (const value of [0, Number.NaN]) {
    expect(() => pricePerRoot(value, 0.25)).toThrow(outOfDomain);
    expect(() => pricePerRoot(20, value)).toThrow(outOfDomain);
  }
});
