/**
 * A level that sound days keep to, and how far they stray from it.
 */
import { linearRegression } from 'simple-statistics';
import { type Dated, recentOf } from './learned-days.js';
import { deviationOf, medianOf } from './median.js';
import { PARAMETERS } from './parameters.js';

export interface Level {
  readonly middle: number;
  /** Robust standard deviation. */
  readonly deviation: number;
}

/**
 * Middle of the last weeks, and how far all days stray from their own middle.
 *
 * @param values of the days that count, in order, at least one
 */
export function levelOf(values: readonly number[]): Level {
  return { middle: medianOf(recentOf(values)), deviation: deviationOf(values) };
}

/**
 * The level that a season carries on to today: along the line through all days where these are enough for one.
 *
 * @param counting the days that count, in order, at least one
 * @param today days since the epoch
 */
export function carriedOn(counting: readonly Dated<number>[], today: number): Level {
  if (counting.length < PARAMETERS.trendNeeds_days) return levelOf(counting.map(([, value]) => value));
  const { m } = linearRegression(counting.map(([day, value]) => [day - today, value]));
  return levelOf(counting.map(([day, value]) => value - m * (day - today)));
}
