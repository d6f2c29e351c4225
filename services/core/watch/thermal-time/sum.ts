/** The degree-days of one development, and how much of them was measured. */
import { z } from 'zod';
import { type Development, degreesAbove } from './developments.js';
import { BRIDGE_h, type CountedHour } from './warmth.js';

const degreeDays = z.number().nonnegative();

export const sumSchema = z
  .strictObject({
    /** Degree-days since filling, or for sprouting since the last repacking, assumed ones among them. */
    sum_C_days: degreeDays,
    /** Of these, what was neither measured nor bridged in time. */
    assumed_C_days: degreeDays,
    /** Hours that are not in the sum at all: no daily mean was known yet. */
    unknown_h: z.number().int().nonnegative(),
    /** The sum when the bed was looked into last. */
    atLook_C_days: degreeDays,
    /** End of the hour in which the sum was reached, ms; null before. */
    reachedAt: z.number().int().nullable(),
  })
  .readonly();

export type DegreeDaySum = z.output<typeof sumSchema>;

export const NO_SUM: DegreeDaySum = Object.freeze({
  sum_C_days: 0,
  assumed_C_days: 0,
  unknown_h: 0,
  atLook_C_days: 0,
  reachedAt: null,
});

/** Share of a sum that may be assumed before it is called uncertain: the sums themselves are known to 15 %. Judgement. */
const ASSUMED_MOST = 0.1;

/** The sum after one more hour that ended at `end`, ms. */
export function addToSum(
  sum: DegreeDaySum,
  development: Development,
  { temperature_C, assumed }: CountedHour,
  end: number,
): DegreeDaySum {
  if (temperature_C === undefined) return Object.freeze({ ...sum, unknown_h: sum.unknown_h + 1 });
  const added = degreesAbove(development, temperature_C) / 24;
  const sum_C_days = sum.sum_C_days + added;
  return Object.freeze({
    ...sum,
    sum_C_days,
    assumed_C_days: sum.assumed_C_days + (assumed ? added : 0),
    reachedAt: sum.reachedAt ?? (sum_C_days >= development.sum_C_days ? end : null),
  });
}

/** Whether a part of the sum that counts was not measured. */
export function isUncertain({ sum_C_days, assumed_C_days, unknown_h }: DegreeDaySum): boolean {
  return unknown_h > BRIDGE_h || assumed_C_days > ASSUMED_MOST * sum_C_days;
}
