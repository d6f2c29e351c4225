/**
 * A level that sound days keep to, and how far they stray from it.
 */
import { linearRegression } from 'simple-statistics';
import { type Dated, valuesOf, type Window } from './learned-days.js';
import { deviationOf, medianOf } from './median.js';
import { PARAMETERS } from './parameters.js';

export interface Level {
  readonly middle: number;
  /** Robust standard deviation. */
  readonly deviation: number;
}

/** Middle of the last weeks, and how far all days stray from their own middle. */
export function levelIn({ recent, all }: Window): Level {
  return { middle: medianOf(valuesOf(recent)), deviation: deviationOf(valuesOf(all)) };
}

/**
 * The level that a season carries on to today: along the line through all days where these are enough for one.
 *
 * @param today days since the epoch
 */
export function carriedOn({ recent, all }: Window, today: number): Level {
  if (all.length < PARAMETERS.trendNeeds_days) return levelIn({ recent, all });
  const { m } = linearRegression(all.map(({ day, value }) => [day - today, value]));
  const level = ({ day, value }: Dated): Dated => ({ day, value: value - m * (day - today) });
  return levelIn({ recent: recent.map(level), all: all.map(level) });
}
