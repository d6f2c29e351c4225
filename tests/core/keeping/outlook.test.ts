import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LossLook } from '../../../services/core/keeping/loss-look.js';
import {
  leftByMonth,
  type MonthAhead,
  type Prospect,
  ratesOf,
  warmDaysAhead,
} from '../../../services/core/keeping/outlook.js';
import { gammaBelow, gammaQuantile } from '../../../services/core/keeping/outlook-gamma.js';
import {
  type DailyMean,
  lossBelief,
  OUTLOOK_PRIOR,
  PRIOR_BELIEF,
  warmDays,
  warmthFactor,
} from '../../../services/core/keeping/outlook-rate.js';
import { rootsPerDay, rootsPerMonth, weeksOfFood } from '../../../services/core/keeping/outlook-use.js';
import { dayOf, FILLED } from './some-stock.js';

const SEED = 20260504;
const outOfDomain = expect.objectContaining({ code: 'OUT_OF_DOMAIN' });

const monthsAt = (mean_C: number, count: number): MonthAhead[] =>
  Array.from({ length: count }, (_, month) => ({ to: dayOf(30 * (month + 1)), mean_C }));
const prospect = (change: Partial<Prospect> = {}): Prospect =>
  Object.freeze({ belief: PRIOR_BELIEF, roots: 400, from: FILLED, months: monthsAt(22, 6), ...change });
const daysAt = (mean_C: number, count: number): DailyMean[] =>
  Array.from({ length: count }, (_, day) => ({ at: dayOf(day), mean_C }));
const looks = (lost: number, looked = 100, sorted = true): LossLook[] =>
  [14, 28, 42].map((day) => ({ at: dayOf(day), looked, present: 400, lost: { rot: lost }, sorted }));
/** A belief that is as good as sure. */
const sure = (perDay: number) => ({ shape: 1e6, rate: 1e6 / perDay, ownShare: 1 });

describe('the gamma distribution [L scipy 1.17; shape 1 and 5 also C]', () => {
  test.each([
    [0.5, 0.00789538704671561, 0.227468211559786, 1.352771727047702],
    [1, 0.10536051565782636, Math.LN2, Math.LN10],
    [1.5, 0.2921871870775917, 1.1829869421876689, 3.1256943155851626],
    [4, 1.7447695628249114, 3.672060748850897, 6.680783068255865],
    [12.3, 8.073527515811746, 11.968320570214786, 16.953957002754674],
    [150, 134.53393038998226, 149.66679867460903, 165.8942598622696],
  ])('shape %d: 10, 50 and 90 %%', (shape, ...published) => {
    const found = [0.1, 0.5, 0.9].map((probability) => gammaQuantile(shape, probability));
    found.forEach((value, at) => {
      // The logarithm of the gamma function that it rests on is right to 10 digits or so.
      expect(Math.abs(value / (published[at] ?? Number.NaN) - 1)).toBeLessThan(1e-9);
    });
  });

  test('shape 5 is chi-squared of 10 degrees over 2: 15.987 at 90 % (tables)', () => {
    expect(2 * gammaQuantile(5, 0.9)).toBeCloseTo(15.987179172105265, 8);
  });

  test('both forms meet at shape + 1, and a whole shape is a Poisson sum', () => {
    expect(gammaBelow(3, 4 - 1e-9)).toBeCloseTo(gammaBelow(3, 4), 8);
    expect(gammaBelow(3, 2)).toBeCloseTo(1 - Math.exp(-2) * (1 + 2 + 2), 9);
    expect(gammaBelow(3, 9)).toBeCloseTo(1 - Math.exp(-9) * (1 + 9 + 40.5), 9);
    expect(gammaBelow(3, 0)).toBe(0);
  });

  test.each([Number.NaN, 0, -1, Number.POSITIVE_INFINITY])('shape %d is refused', (shape) => {
    expect(() => gammaBelow(shape, 1)).toThrow(outOfDomain);
    expect(() => gammaQuantile(shape, 0.5)).toThrow(outOfDomain);
  });

  test('probabilities and values that are none are refused', () => {
    for (const value of [Number.NaN, 0, 1]) expect(() => gammaQuantile(2, value)).toThrow(outOfDomain);
    for (const value of [Number.NaN, -1]) expect(() => gammaBelow(2, value)).toThrow(outOfDomain);
  });

  test('the quantile is the inverse', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (shape, probability) => {
          expect(gammaBelow(shape, gammaQuantile(shape, probability))).toBeCloseTo(probability, 7);
        },
      ),
      { seed: SEED, numRuns: 100 },
    );
  });
});

describe('warmth', () => {
  test('a day at 22 °C is one, at 32 °C two, at 12 °C half', () => {
    expect([22, 32, 12].map((mean_C) => warmthFactor(mean_C))).toEqual([
      { factor: 1, outside: false },
      { factor: 2, outside: false },
      { factor: 0.5, outside: false },
    ]);
  });

  test('too cold or too hot is said, not carried on', () => {
    expect(warmthFactor(5)).toEqual({ factor: 0.5, outside: true });
    expect(warmthFactor(40)).toEqual({ factor: 2 ** 1.3, outside: true });
    for (const mean_C of [Number.NaN, -11, 61]) expect(() => warmthFactor(mean_C)).toThrow(outOfDomain);
  });

  test('days of a span: measured ones, parts of them, and the usual for those that are missing', () => {
    expect(warmDays(daysAt(32, 10), dayOf(0), dayOf(10))).toBeCloseTo(20, 12);
    expect(warmDays(daysAt(32, 10), dayOf(0.25), dayOf(1.5))).toBeCloseTo(2.5, 12);
    expect(warmDays(daysAt(32, 5), dayOf(0), dayOf(10))).toBeCloseTo(20, 12);
    expect(warmDays([], dayOf(0), dayOf(10))).toBeCloseTo(10, 12);
    expect(() => warmDays([], dayOf(1), dayOf(0))).toThrow(outOfDomain);
  });
});

describe('what is believed', () => {
  test('at first: 18 % in 3 months and 28 % in 5, between 4 and 34 % in 3', () => {
    const { value } = OUTLOOK_PRIOR.meanLoss_per_day;
    expect(1 - Math.exp(-91 * value)).toBeCloseTo(0.18, 2);
    expect(1 - Math.exp(-152 * value)).toBeCloseTo(0.28, 2);
    const { low, high } = ratesOf(PRIOR_BELIEF);
    expect(1 - Math.exp(-91 * low)).toBeCloseTo(0.04, 2);
    expect(1 - Math.exp(-91 * high)).toBeCloseTo(0.34, 2);
  });

  test('says where each value comes from', () => {
    for (const { source } of Object.values(OUTLOOK_PRIOR)) expect(source).toMatch(/^judgement/);
  });

  test('after looks, by hand: 3 times 2 lost of 100 in 14 days at 22 °C', () => {
    const belief = lossBelief(FILLED, looks(2), daysAt(22, 42));
    expect(belief.shape).toBeCloseTo(1.5 + 6 / 5, 12);
    expect(belief.rate).toBeCloseTo(1.5 / 0.0022 + (3 * 99 * 14) / 5, 9);
    expect(belief.ownShare).toBeCloseTo(1 - 1.5 / 0.0022 / belief.rate, 12);
  });

  test('the same loss in a warmer bed is a lower rate at 22 °C', () => {
    const cool = ratesOf(lossBelief(FILLED, looks(2), daysAt(22, 42)));
    const warm = ratesOf(lossBelief(FILLED, looks(2), daysAt(32, 42)));
    expect(warm.likely).toBeLessThan(0.7 * cool.likely);
  });

  test('narrows with looks, and goes where they point', () => {
    const widthOf = ({ low, high }: { low: number; high: number }): number => high / low;
    const none = ratesOf(PRIOR_BELIEF);
    const good = ratesOf(lossBelief(FILLED, looks(0), daysAt(22, 42)));
    const bad = ratesOf(lossBelief(FILLED, looks(30), daysAt(22, 42)));
    expect(good.high).toBeLessThan(none.high / 2);
    expect(bad.low).toBeGreaterThan(none.high);
    expect(widthOf(bad)).toBeLessThan(widthOf(none) / 3);
  });

  test('looks at some of the roots that find the same each time tell of a slower loss than sortings do', () => {
    const [bySome, bySortings] = [false, true].map((sorted) =>
      lossBelief(FILLED, looks(4, 100, sorted), daysAt(22, 42)),
    );
    expect(bySome?.shape).toBe(bySortings?.shape);
    // By hand: 98 roots, as the four lost count half, over 14 + 28 + 42 days instead of three times 14.
    expect((bySome?.rate ?? 0) - (bySortings?.rate ?? 0)).toBeCloseTo((98 * (84 - 42)) / 5, 9);
  });

  test('looks out of order are refused', () => {
    expect(() => lossBelief(FILLED, looks(1).reverse(), [])).toThrow(outOfDomain);
    expect(() => lossBelief(dayOf(14), looks(1), [])).toThrow(outOfDomain);
  });
});

describe('what will be left', () => {
  test('a sure rate leaves chance alone: 400 exp(-0.0022 * 90), by hand 328', () => {
    const left = leftByMonth(prospect({ belief: sure(0.0022) }))[2]?.left;
    expect(left?.likely).toBeCloseTo(400 * Math.exp(-0.0022 * 90), 2);
    // 1.2816 sqrt(5 * 328.15 * 71.85 / 400) = 22.0
    expect((left?.likely ?? 0) - (left?.low ?? 0)).toBeCloseTo(22, 1);
  });

  test('the band holds its middle, falls and widens; a warm bed keeps less', () => {
    const months = leftByMonth(prospect());
    months.forEach(({ left: { low, likely, high } }, index) => {
      expect(low).toBeLessThan(likely);
      expect(likely).toBeLessThan(high);
      expect(likely).toBeLessThan(months[index - 1]?.left.likely ?? 400);
    });
    expect(leftByMonth(prospect({ months: monthsAt(30, 6) }))[5]?.left.likely).toBeLessThan(
      months[5]?.left.likely ?? 0,
    );
  });

  test('is never below none or above all, and says when it is too cold or hot to tell', () => {
    const [month] = leftByMonth(prospect({ belief: sure(0.2), months: monthsAt(40, 1) }));
    expect(month?.left.low).toBe(0);
    expect(month?.outside).toBe(true);
    expect(leftByMonth(prospect({ belief: sure(1e-6) }))[0]?.left.high).toBeLessThanOrEqual(400);
    expect(leftByMonth(prospect({ roots: 0 }))[0]?.left).toEqual({ low: 0, likely: 0, high: 0 });
  });

  test.each<[string, Partial<Prospect>, string]>([
    ['no months', { months: [] }, 'TOO_FEW_SAMPLES'],
    ['months out of order', { months: monthsAt(22, 2).reverse() }, 'OUT_OF_DOMAIN'],
    ['a month that is over', { from: dayOf(31) }, 'OUT_OF_DOMAIN'],
    ['a temperature that is none', { months: monthsAt(Number.NaN, 1) }, 'OUT_OF_DOMAIN'],
    ['fewer than no roots', { roots: -1 }, 'OUT_OF_DOMAIN'],
    ['roots that are no number', { roots: Number.NaN }, 'OUT_OF_DOMAIN'],
  ])('%s: refused', (_, change, code) => {
    const refused = expect.objectContaining({ code });
    expect(() => leftByMonth(prospect(change))).toThrow(refused);
    expect(() => weeksOfFood(prospect(change), 3)).toThrow(refused);
    expect(() => rootsPerMonth(prospect(change))).toThrow(refused);
  });
});

describe('eating', () => {
  test('roots or kg a day, as the eaters say', () => {
    expect(rootsPerDay({ roots_per_day: 6 }, undefined)).toBe(6);
    expect(rootsPerDay({ kg_per_day: 1.5 }, 0.25)).toBe(6);
    expect(() => rootsPerDay({ kg_per_day: 1.5 }, undefined)).toThrow(
      expect.objectContaining({ code: 'BAD_REQUEST' }),
    );
    for (const value of [0, -1, Number.NaN]) {
      expect(() => rootsPerDay({ roots_per_day: value }, 0.25)).toThrow(outOfDomain);
      expect(() => rootsPerDay({ kg_per_day: value }, 0.25)).toThrow(outOfDomain);
      expect(() => rootsPerDay({ kg_per_day: 1 }, value)).toThrow(outOfDomain);
      expect(() => weeksOfFood(prospect(), value)).toThrow(outOfDomain);
    }
  });

  test('without loss: 400 roots, 4 a day, 100 days', () => {
    const { low, likely, high } = weeksOfFood(prospect({ belief: sure(1e-9) }), 4);
    for (const weeks of [low, likely, high]) expect((weeks ?? 0) * 7).toBeGreaterThanOrEqual(99);
    expect((likely ?? 0) * 7).toBeLessThanOrEqual(100);
  });

  test('with loss fewer, by hand: 100 roots, 12 a day, half lost each night: 100, 44, 16, 2: 3 days', () => {
    const { likely } = weeksOfFood(prospect({ roots: 100, belief: sure(Math.LN2) }), 12);
    expect((likely ?? 0) * 7).toBeCloseTo(3, 12);
  });

  test('in order, none in an empty bed, and more than a year is not told', () => {
    const { low, likely, high } = weeksOfFood(prospect(), 4);
    expect(low ?? 0).toBeLessThan(likely ?? 0);
    expect(likely ?? 0).toBeLessThan(high ?? 0);
    expect(weeksOfFood(prospect({ roots: 3 }), 4)).toEqual({ low: 0, likely: 0, high: 0 });
    expect(weeksOfFood(prospect({ belief: sure(1e-9) }), 0.5).likely).toBeNull();
  });

  test('stays as warm as in the last month given', () => {
    const short = weeksOfFood(prospect({ belief: sure(0.01), months: monthsAt(30, 1) }), 2);
    const long = weeksOfFood(prospect({ belief: sure(0.01), months: monthsAt(30, 12) }), 2);
    expect(short).toEqual(long);
  });
});

describe('selling', () => {
  test('without loss 400 in 6 months are 66.7 a month', () => {
    expect(rootsPerMonth(prospect({ belief: sure(1e-9) })).likely).toBeCloseTo(400 / 6, 3);
  });

  test('so many each month leave none', () => {
    const task = prospect({ belief: sure(0.005), months: monthsAt(27, 5) });
    const { likely: sold } = rootsPerMonth(task);
    const rate = ratesOf(task.belief).likely;
    let before = 0;
    const left = warmDaysAhead(task).reduce((roots, warm_days) => {
      const kept = roots * Math.exp(-rate * (warm_days - before)) - sold;
      before = warm_days;
      return kept;
    }, 400);
    expect(left).toBeCloseTo(0, 8);
  });

  test('fewer where more is lost', () => {
    const { low, likely, high } = rootsPerMonth(prospect());
    expect(low).toBeLessThan(likely);
    expect(likely).toBeLessThan(high);
    expect(high).toBeLessThan(400 / 6);
  });
});
