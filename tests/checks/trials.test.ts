/** Comparisons of treatments against published analyses, to the printed digits. Data and their sources: trial-data.ts. */
import { describe, expect, test } from 'vitest';
import { inBlocks } from '../../services/core/trials/blocks.js';
import { hedgesG } from '../../services/core/trials/effect-size.js';
import { brownForsythe } from '../../services/core/trials/equal-spread.js';
import { friedman } from '../../services/core/trials/friedman.js';
import { compare, factorialInBlocks, mainTest } from '../../services/core/trials/index.js';
import { momentsOf } from '../../services/core/trials/moments.js';
import { andersonDarling } from '../../services/core/trials/normality.js';
import { oneWay } from '../../services/core/trials/one-way.js';
import { welchT } from '../../services/core/trials/welch.js';
import { bedsOf, blocksOf, NPK, PLANT_GROWTH, ROUNDING_TIMES, SI_RSTV, SLEEP, smLs } from './trial-data.js';

/** As many digits as are printed, half a unit of the last. */
const printed = (value: number, text: string): void => {
  const decimals = text.split(/e/i)[0]?.split('.')[1]?.length ?? 0;
  const power = Number(text.split(/e/i)[1] ?? 0);
  expect(Math.abs(value - Number(text))).toBeLessThanOrEqual(0.5000001 * 10 ** (power - decimals));
};

describe('two treatments', () => {
  test('sleep by Welch [V+L R, t.test]', () => {
    const found = compare('welch', bedsOf(SLEEP));
    const { value, df, p } = mainTest(found);
    printed(value, '1.8608135');
    printed(df[0] as number, '17.776474');
    printed(p, '0.07939414');
    printed(found.differences[0]?.difference.low ?? Number.NaN, '-0.2054832');
    printed(found.differences[0]?.difference.high ?? Number.NaN, '3.3654832');
    expect(found.correction).toBeNull();
  });

  test('sleep with one variance: F is t squared, p that of pooled t [V+L R]', () => {
    const { value, df, p } = mainTest(compare('anova', bedsOf(SLEEP)));
    printed(Math.sqrt(value), '1.8608135');
    expect(df).toEqual([1, 18]);
    printed(p, '0.07918671');
  });

  test('sleep with people as blocks is the paired t test [V+L R]', () => {
    const found = compare('blocks', blocksOf(SLEEP));
    const { value, df, p } = mainTest(found);
    printed(Math.sqrt(value), '4.0621277');
    expect(df).toEqual([1, 9]);
    printed(p, '0.00283289');
    printed(found.differences[0]?.difference.estimate ?? Number.NaN, '1.58');
  });

  test('AUTO83B by its summaries, NIST/SEMATECH e-Handbook 1.3.5.3 [summaries from memory; L R]', () => {
    const one = { n: 249, mean: 20.14458, variance: 6.4147 ** 2 };
    const other = { n: 79, mean: 30.48101, variance: 6.10771 ** 2 };
    const { t, df } = welchT(one, other);
    printed(t, '12.94627');
    printed(df, '136.8750');
    const pooled = Math.sqrt((248 * one.variance + 78 * other.variance) / 326);
    const difference = other.mean - one.mean;
    printed(difference / (pooled * Math.sqrt(1 / 249 + 1 / 79)), '12.62059');
  });

  test('Hedges g with the exact factor [L: scipy 1.17, gammaln]', () => {
    const [one, two] = [momentsOf(SLEEP.one), momentsOf(SLEEP.two)];
    const sd = Math.sqrt((one.squares + two.squares) / 18);
    printed(hedgesG(two.mean - one.mean, sd, 18, 10, 10)?.estimate ?? Number.NaN, '0.7969352391911');
  });
});

describe('PlantGrowth [V+L R]', () => {
  const beds = bedsOf(PLANT_GROWTH);

  test('one way', () => {
    const { between, betweenDf, within, withinDf, f, p } = oneWay(beds);
    printed(between, '3.76634');
    printed(within, '10.49209');
    expect([betweenDf, withinDf]).toEqual([2, 27]);
    printed(f, '4.846088');
    printed(p, '0.01591');
  });

  test("Tukey's pairs", () => {
    const pairs = compare('anova', beds).differences;
    const rows = [
      ['-0.371', '-1.0622161', '0.3202161', '0.3908711'],
      ['0.494', '-0.1972161', '1.1852161', '0.1979960'],
      ['0.865', '0.1737839', '1.5562161', '0.0120064'],
    ] as const;
    rows.forEach(([estimate, low, high, p], at) => {
      const pair = pairs[at];
      printed(pair?.difference.estimate ?? Number.NaN, estimate);
      printed(pair?.difference.low ?? Number.NaN, low);
      printed(pair?.difference.high ?? Number.NaN, high);
      printed(pair?.p ?? Number.NaN, p);
    });
  });

  test("Welch's, and pairs after Games and Howell [L: scipy 1.17, tukey_hsd]", () => {
    const found = compare('welch', beds);
    const { value, df, p } = mainTest(found);
    printed(value, '5.1809724');
    printed(df[1] as number, '17.128419');
    printed(p, '0.01739282');
    const pairs = found.differences;
    ['0.47455492', '0.11288918', '0.02370345'].forEach((each, at) => {
      printed(pairs[at]?.p ?? Number.NaN, each);
    });
    printed(pairs[2]?.difference.low ?? Number.NaN, '0.11351299');
    printed(pairs[2]?.difference.high ?? Number.NaN, '1.61648701');
  });

  test('Kruskal-Wallis', () => {
    const { value, p } = mainTest(compare('kruskal', beds));
    printed(value, '7.9882287');
    printed(p, '0.01842376');
  });

  test('what it rests on [L: scipy 1.17, levene about medians, anderson]', () => {
    const spread = brownForsythe(beds);
    printed(spread.f, '1.11918569487');
    printed(spread.p, '0.341226624125');
    const residuals = Object.values(PLANT_GROWTH).flatMap((values) => {
      const { mean } = momentsOf(values);
      return values.map((value) => value - mean);
    });
    printed(andersonDarling(residuals).a, '0.368046258004');
  });
});

describe('blocks', () => {
  test('RoundingTimes [V+L R]', () => {
    const beds = blocksOf(ROUNDING_TIMES);
    const { f, df, fit, p } = inBlocks(beds);
    printed(f, '6.28831');
    expect([df, fit.residualDf]).toEqual([2, 42]);
    printed(p, '0.0040841');
    const ranks = friedman(beds)?.test;
    printed(ranks?.value ?? Number.NaN, '11.142857');
    expect(ranks?.df).toEqual([2]);
    printed(ranks?.p ?? Number.NaN, '0.003805041');
  });

  test('npk [V+L R, aov(yield ~ block + N*P*K)]', () => {
    const beds = NPK.map(([block, given, value], at) => ({
      ...{ bed: `plot-${at}`, treatment: given, block, value },
      factors: { N: given[0] as string, P: given[1] as string, K: given[2] as string },
    }));
    const { rows, means, residualDf, residualSquares } = factorialInBlocks(beds, ['N', 'P', 'K']);
    const row = (name: string) => rows.find((each) => each.name === name);
    printed(row('blocks')?.squares ?? Number.NaN, '343.2950');
    expect(row('blocks')?.df).toBe(5);
    printed(row('N')?.squares ?? Number.NaN, '189.2817');
    printed(row('N')?.f ?? Number.NaN, '12.25873');
    printed(row('N')?.p ?? Number.NaN, '0.0043718');
    printed(row('P')?.squares ?? Number.NaN, '8.4017');
    printed(row('K')?.squares ?? Number.NaN, '95.2017');
    printed(row('K')?.f ?? Number.NaN, '6.16569');
    printed(row('K')?.p ?? Number.NaN, '0.0287951');
    printed(residualSquares, '185.2867');
    expect(residualDf).toBe(12);
    // Twice the coefficients of sums to nothing, and t(0.975, 12) times the residual standard error of 3.929447.
    const half = 2.1788128 * 3.929447 * Math.sqrt(2 / 12);
    const coefficients = [-2.808333, 0.591667, 1.991667];
    const pairs = means.flatMap(({ differences }) => differences);
    expect(pairs.length).toBe(coefficients.length);
    for (const [at, { from, difference }] of pairs.entries()) {
      const expected = (from === '0' ? -2 : 2) * (coefficients[at] as number);
      expect(difference.estimate).toBeCloseTo(expected, 5);
      expect(difference.low).toBeCloseTo(expected - half, 5);
      expect(difference.high).toBeCloseTo(expected + half, 5);
    }
    printed(pairs[0]?.p ?? Number.NaN, '0.0043718');
  });
});

describe('NIST StRD, analysis of variance [V]', () => {
  test('SiRstv, lower level: 13 digits, as many as its doubles have', () => {
    const { between, within, f, residualSd } = oneWay(bedsOf(SI_RSTV));
    const rows = [
      [between, 5.11462616e-2],
      [within, 2.1663656e-1],
      [f, 1.18046237440255],
      [residualSd, 1.04076068334656e-1],
      [between / (between + within), 1.90999039051129e-1],
    ] as const;
    for (const [value, exact] of rows) expect(Math.abs(value / exact - 1)).toBeLessThan(1e-13);
  });

  const certified = [
    [21, 1.68, 1.8, 21, 0.482758620689655],
    [201, 16.08, 18, 201, 0.471830985915493],
    [2001, 160.08, 180, 2001, 0.470712773465067],
  ] as const;

  /**
   * A leading part of 1, 10^6 and 10^12: the doubles nearest to the values are themselves off by up to 6e-5 of the tenths
   * at 10^12, so that certified figures can be had to 4 digits there; what the doubles give exactly is held below.
   */
  test.each([
    ['SmLs01 to 03', '1', 1e-13],
    ['SmLs04 to 06', '1000000', 2e-9],
    ['SmLs07 to 09', '1000000000000', 4e-4],
  ] as const)('%s', (_, leading, tolerance) => {
    for (const [replicates, between, within, f, share] of certified) {
      const found = oneWay(smLs(leading, replicates));
      const near = (value: number, exact: number): void =>
        expect(Math.abs(value / exact - 1)).toBeLessThanOrEqual(tolerance);
      near(found.between, between);
      near(found.within, within);
      near(found.f, f);
      near(found.residualSd, 0.1);
      near(found.between / (found.between + found.within), share);
    }
  });

  /** Of the doubles themselves, by whole-number arithmetic [C: Python, fractions]. */
  test.each([
    ['SmLs04', '1000000', 1.6800000001490116, 1.8000000000931322, 21.0000000007761],
    ['SmLs07', '1000000000000', 1.6801562694014696, 1.8000978373345875, 21.00081188781877],
  ] as const)('%s loses no digit that the doubles have', (_, leading, between, within, f) => {
    const found = oneWay(smLs(leading, 21));
    expect(Math.abs(found.between / between - 1)).toBeLessThan(1e-13);
    expect(Math.abs(found.within / within - 1)).toBeLessThan(1e-13);
    expect(Math.abs(found.f / f - 1)).toBeLessThan(1e-13);
  });
});
