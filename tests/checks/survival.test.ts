/**
 * Remission under 6-MP: E. J. Freireich et al., Blood 21 (1963) 699-716, as E. A. Gehan 1965 used it [V: data set
 * gehan of the R package MASS]. Survival and standard errors [V+L: R survival 3.5]; intervals [L: scipy 1.17, ecdf,
 * log-log].
 */
import { describe, expect, test } from 'vitest';
import { type Count, kaplanMeier, keptUntil } from '../../services/core/keeping/loss-survival.js';

/** Eight decimals are printed. */
const PRINTED = 5e-9;

/** Weeks; a plus marks who was last seen then, still well. */
const TREATED = '6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+';
const PLACEBO = '1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23';

/** Counts at each week in which a remission ended. */
function countsOf(text: string): Count[] {
  const seen = text
    .split(' ')
    .map((each) => ({ week: Number.parseInt(each, 10), ended: !each.endsWith('+') }));
  const weeks = [...new Set(seen.filter(({ ended }) => ended).map(({ week }) => week))];
  return weeks.map((time) => ({
    time,
    atRisk: seen.filter(({ week }) => week >= time).length,
    lost: seen.filter(({ week, ended }) => week === time && ended).length,
  }));
}

describe('6-MP', () => {
  const steps = kaplanMeier(countsOf(TREATED));

  test('week, at risk, ended, survival, standard error', () => {
    const published = [
      [6, 21, 3, 0.85714286, 0.07636035],
      [7, 17, 1, 0.80672269, 0.08693529],
      [10, 15, 1, 0.75294118, 0.09634965],
      [13, 12, 1, 0.69019608, 0.10681471],
      [16, 11, 1, 0.62745098, 0.11405387],
      [22, 7, 1, 0.53781513, 0.12823375],
      [23, 6, 1, 0.44817927, 0.13459146],
    ] as const;
    expect(steps).toHaveLength(published.length);
    published.forEach(([time, atRisk, lost, survival, standardError], at) => {
      const step = steps[at];
      expect(step).toMatchObject({ time, atRisk, lost });
      expect(Math.abs((step?.survival ?? Number.NaN) - survival)).toBeLessThanOrEqual(PRINTED);
      expect(Math.abs((step?.standardError ?? Number.NaN) - standardError)).toBeLessThanOrEqual(PRINTED);
    });
  });

  test('95 % intervals [L scipy]', () => {
    const computed = [
      [0.6197179552659838, 0.951551747646997],
      [0.5631465646222333, 0.9228090192028804],
      [0.5031995107999564, 0.8893618351692655],
      [0.43161022248618397, 0.8490659633494507],
      [0.36751085598750205, 0.8049121894718412],
      [0.26777893676713505, 0.7467907176353944],
      [0.18805200595923235, 0.6801426284952414],
    ] as const;
    computed.forEach(([low, high], at) => {
      expect(Math.abs((steps[at]?.low ?? Number.NaN) - low)).toBeLessThan(1e-13);
      expect(Math.abs((steps[at]?.high ?? Number.NaN) - high)).toBeLessThan(1e-13);
    });
  });

  test('median 23 weeks', () => {
    expect(keptUntil(steps, 0.5)).toBe(23);
  });
});

describe('placebo', () => {
  const steps = kaplanMeier(countsOf(PLACEBO));

  test('survival', () => {
    const published: Readonly<Record<number, number>> = {
      ...{ 1: 0.904762, 2: 0.809524, 3: 0.761905, 4: 0.666667, 5: 0.571429, 8: 0.380952 },
      ...{ 11: 0.285714, 12: 0.190476, 15: 0.142857, 17: 0.095238, 22: 0.047619, 23: 0 },
    };
    expect(steps.map(({ time }) => time)).toEqual(Object.keys(published).map(Number));
    for (const { time, survival } of steps)
      expect(Math.abs(survival - (published[time] ?? Number.NaN))).toBeLessThanOrEqual(5e-7);
  });

  test('median 8 weeks; nothing is said once none is left', () => {
    expect(keptUntil(steps, 0.5)).toBe(8);
    expect(steps.at(-1)).toMatchObject({ survival: 0, standardError: null, low: null, high: null });
  });
});
