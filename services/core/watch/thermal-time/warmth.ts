/** How warm the bed is: its last day, and what stands in for an hour without a reading. */
import { z } from 'zod';
import { requireInDomain } from '../../errors.js';
import { addHour, meanOf } from '../hourly-mean.js';

/** h. One day, so that the daily wave drops out; and how many of its hours a daily mean needs. Judgement. */
const DAY_h = 24;
const DAY_NEEDS_h = 18;

/**
 * h that the last known daily mean stands in for missing hours without a word: sand beds take 2 to 6 days to follow
 * the weather (computed), so three days later it is off by a degree or two at the most. Judgement.
 */
export const BRIDGE_h = 72;

/** °C. Range of the common buried sensor. */
const COLDEST_C = -55;
const WARMEST_C = 125;

export const warmthSchema = z
  .strictObject({
    /** Means of the last hours, °C; null is an hour without. */
    hours: z.array(z.number().nullable()).max(DAY_h).readonly(),
    /** The last known daily mean, °C; null before the first. */
    daily_C: z.number().nullable(),
    /** Hours in a row without a reading. */
    gap_h: z.number().int().nonnegative(),
  })
  .readonly();

export type Warmth = z.output<typeof warmthSchema>;

export const NO_WARMTH: Warmth = Object.freeze({ hours: Object.freeze([]), daily_C: null, gap_h: 0 });

/** What an hour counts as. */
export interface CountedHour {
  /** °C; absent where neither a reading nor a daily mean is known. */
  readonly temperature_C?: number;
  /** Whether the last known daily mean stands in past its time. */
  readonly assumed: boolean;
}

/**
 * The warmth after one more hour.
 *
 * @param hourlyMean_C of the bed, °C in [-55, 125]; undefined for an hour without
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function takeHour(warmth: Warmth, hourlyMean_C: number | undefined): Warmth {
  if (hourlyMean_C !== undefined) requireInDomain('hourly mean, °C', hourlyMean_C, COLDEST_C, WARMEST_C);
  const hours = [...warmth.hours];
  addHour(hours, hourlyMean_C, DAY_h);
  const daily_C = meanOf(hours, DAY_NEEDS_h) ?? warmth.daily_C;
  const gap_h = hourlyMean_C === undefined ? warmth.gap_h + 1 : 0;
  return Object.freeze({ hours: Object.freeze(hours), daily_C, gap_h });
}

/** What the last hour taken counts as. */
export function countedHour({ daily_C, gap_h }: Warmth, hourlyMean_C: number | undefined): CountedHour {
  if (hourlyMean_C !== undefined) return { temperature_C: hourlyMean_C, assumed: false };
  if (daily_C === null) return { assumed: false };
  return { temperature_C: daily_C, assumed: gap_h > BRIDGE_h };
}
