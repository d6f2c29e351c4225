/**
 * Score intervals against published ones. [V]: R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, Table I,
 * method 3, as several public test suites quote it. [L]: scipy 1.17, binomtest(...).proportion_ci('wilson').
 */
import { describe, expect, test } from 'vitest';
import { DEVIATIONS_95, wilsonInterval } from '../../services/core/keeping/loss-interval.js';

/** Four decimals are printed. */
const PRINTED = 0.00005;
/** Rounding of double arithmetic. */
const ROUNDING = 1e-14;

describe('Newcombe 1998, Table I, method 3 [V]', () => {
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%d of %d: %d to %d', (count, looked, low, high) => {
    const found = wilsonInterval(count, looked);
    expect(Math.abs(found.low - low)).toBeLessThanOrEqual(PRINTED);
    expect(Math.abs(found.high - high)).toBeLessThanOrEqual(PRINTED);
  });
});

describe('to the last digits [L scipy]', () => {
  test.each([
    [81, 263, 0.2552885198782742, 0.3662095769828],
    [15, 148, 0.06238639953073629, 0.16048724172330803],
    [0, 20, 0, 0.16112515805281935],
    [1, 29, 0.006113214292762667, 0.17175521879320282],
    [29, 29, 0.8830302015002592, 1],
    [3, 40, 0.025836025774588198, 0.19864233524310543],
  ])('%d of %d', (count, looked, low, high) => {
    const found = wilsonInterval(count, looked);
    expect(Math.abs(found.low - low)).toBeLessThan(ROUNDING);
    expect(Math.abs(found.high - high)).toBeLessThan(ROUNDING);
  });

  test('1.959964 standard deviations [L scipy]', () => {
    expect(Math.abs(DEVIATIONS_95 - 1.9599639845400545)).toBeLessThan(ROUNDING);
  });
});

describe('closed forms [C]', () => {
  test('none of n: from 0 to z^2 / (n + z^2)', () => {
    const z2 = DEVIATIONS_95 ** 2;
    for (const looked of [1, 7, 400])
      expect(Math.abs(wilsonInterval(0, looked).high - z2 / (looked + z2))).toBeLessThan(ROUNDING);
  });

  test('half of those present: the spread counts for (400 - 200) / 399', () => {
    // By hand: z^2 f / n = 3.841459 * 0.501253 / 200 = 0.00962772; at 1/2 the half width is sqrt(s / (1 + s)) / 2.
    const found = wilsonInterval(100, 200, 400);
    expect(Math.abs(found.high - found.low - Math.sqrt(0.00962772 / 1.00962772))).toBeLessThan(1e-7);
  });
});
