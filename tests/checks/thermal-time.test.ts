/**
 * Degree-day sums against the development times behind them. Tags: [V] seen in the source's abstract, [inference] a
 * reading of an abstract that contradicts itself, [C] computed from the sums, [weak] a web page.
 */
import { describe, expect, test } from 'vitest';
import {
  DEFAULT_SETTINGS,
  type DevelopmentName,
  daysToCome,
} from '../../services/core/watch/thermal-time/index.js';

/** Days that a development takes at one temperature. */
function daysAt(name: DevelopmentName, temperature_C: number): number {
  const development = DEFAULT_SETTINGS.developments.find((each) => each.name === name);
  const days = development && daysToCome(development.sum_C_days, development, temperature_C);
  return days ?? Number.NaN;
}

describe('Smit & van Huis, egg to adult at 27 °C [V]', () => {
  test.each([
    ['cylas-puncticollis', 20, 28],
    ['cylas-brunneus', 32, 41],
  ] as const)('%s: %d to %d days', (name, least, most) => {
    expect(daysAt(name, 27)).toBeGreaterThanOrEqual(least);
    expect(daysAt(name, 27)).toBeLessThanOrEqual(most);
  });
});

describe('Uganda J. Agric. Sci. article 360, C. brunneus egg to adult [inference]', () => {
  /** A straight line through three points that are not quite on one; the worst is 12 % at 25 °C. */
  const LINE = 0.13;
  test.each([
    [20, 59.4],
    [25, 34.7],
    [30, 28.7],
  ])('at %d °C: %d days', (temperature_C, published) => {
    expect(Math.abs(daysAt('cylas-brunneus', temperature_C) / published - 1)).toBeLessThan(LINE);
  });

  test('none at 15 °C within the 120 days that a slow one would take, none at 35 °C at all [V]', () => {
    expect(daysAt('cylas-brunneus', 15)).toBeGreaterThan(120);
    expect(daysAt('cylas-brunneus', 35)).toBeNaN();
  });
});

describe('C. formicarius [weak]', () => {
  test('about 33 days at 27 to 30 °C: 30 to 37', () => {
    expect(daysAt('cylas-formicarius', 30)).toBeCloseTo(30, 9);
    expect(daysAt('cylas-formicarius', 27)).toBeCloseTo(36.92, 2);
  });
});

describe('sprouting', () => {
  test.each([
    [27, 21, 0.1],
    [15, 180, 2],
  ])('the two points of the line: %d °C, %d days', (temperature_C, days, tolerance) => {
    expect(Math.abs(daysAt('sprouting', temperature_C) - days)).toBeLessThan(tolerance);
  });

  test.each([
    [20, 43],
    [22, 33],
    [25, 25],
  ])('at %d °C: %d days [C]', (temperature_C, days) => {
    expect(Math.abs(daysAt('sprouting', temperature_C) - days)).toBeLessThanOrEqual(0.5);
  });

  test.each([24, 29])('at %d °C within the 2 to 4 weeks of pre-sprouting [V], a day allowed', (t) => {
    expect(daysAt('sprouting', t)).toBeGreaterThan(14);
    expect(daysAt('sprouting', t)).toBeLessThan(29);
  });
});
