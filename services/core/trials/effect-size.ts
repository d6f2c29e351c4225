/**
 * Sizes of effects.
 *
 * Hedges g: L. V. Hedges, J. Educ. Stat. 6 (1981) 107-128, with its exact factor for few values; its interval by the
 * large-sample variance of L. V. Hedges & I. Olkin 1985. Eta, omega: shares of the variance; omega squared after W. L. Hays
 * 1963. Titles from memory.
 */
import { type EffectSize, type Interval, LEVEL } from './comparison.js';
import { logGamma, normalFactor } from './distributions.js';

/** The exact factor by which a standardised difference of few values is too large, below 1. */
export const hedgesFactor = (df: number): number =>
  Math.exp(logGamma(df / 2) - logGamma((df - 1) / 2)) / Math.sqrt(df / 2);

/**
 * A difference in standard deviations.
 *
 * @param sd that both share, with `df` degrees of freedom, more than 1
 * @returns null where nothing differs within treatments, so that there is no scale
 */
export function hedgesG(
  difference: number,
  sd: number,
  df: number,
  one: number,
  other: number,
): Interval | null {
  if (!(sd > 0 && df > 1)) return null;
  const estimate = (hedgesFactor(df) * difference) / sd;
  const variance = (one + other) / (one * other) + estimate ** 2 / (2 * (one + other));
  const half = normalFactor(LEVEL) * Math.sqrt(variance);
  return { estimate, low: estimate - half, high: estimate + half };
}

export interface Split {
  readonly between: number;
  readonly betweenDf: number;
  readonly within: number;
  readonly withinDf: number;
  /** Beds in all. */
  readonly beds: number;
}

/** Shares of the variance that treatments account for; partial ones where something else was taken out before. */
export function sharesOf({ between, betweenDf, within, withinDf, beds }: Split, partial = ''): EffectSize[] {
  const mean = within / withinDf;
  const unbiased = between - betweenDf * mean;
  return [
    { name: `${partial}eta squared`, value: between / (between + within) },
    { name: `${partial}omega squared`, value: unbiased / (unbiased + beds * mean) },
  ];
}
