/** What is remembered of a bed's warmth since it was filled, as it stands in a checkpoint. */
import { z } from 'zod';
import { requireInDomain } from '../../errors.js';
import { EARLIEST_TIME_ms, HOUR_ms, LATEST_TIME_ms } from '../../model/time.js';
import { DEVELOPMENT_NAMES, type DevelopmentName } from './developments.js';
import { type DegreeDaySum, NO_SUM, sumSchema } from './sum.js';
import { NO_WARMTH, warmthSchema } from './warmth.js';

/** Why a look is due when it is. */
export const LOOK_REASONS = ['two-weeks', 'warmth', 'sprouting', 'weevils'] as const;

export const nextLookSchema = z.strictObject({ dueAt: z.number(), because: z.enum(LOOK_REASONS) }).readonly();

/** When the bed must be looked into by hand, ms, and why then. */
export type NextLook = z.output<typeof nextLookSchema>;

export const thermalTimeStateSchema = z
  .strictObject({
    /** ms. */
    filledAt: z.number().int(),
    /** When the bed was opened last, or filled, ms. */
    lookedAt: z.number().int(),
    /** Start of the last hour taken, ms; null before the first. */
    hour: z.number().int().nullable(),
    warmth: warmthSchema,
    sums: z.record(z.enum(DEVELOPMENT_NAMES), sumSchema).readonly(),
    /** The look that has come due and has not been had; null where none has. */
    due: nextLookSchema.nullable(),
  })
  .readonly();

export type ThermalTimeState = z.output<typeof thermalTimeStateSchema>;

/**
 * A bed that has just been filled, with other roots than before.
 *
 * @param filledAt ms, between 2000 and 2100
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function startThermalTime(filledAt: number): ThermalTimeState {
  requireInDomain('filledAt, ms', filledAt, EARLIEST_TIME_ms, LATEST_TIME_ms);
  return Object.freeze({
    filledAt,
    lookedAt: filledAt,
    hour: null,
    warmth: NO_WARMTH,
    sums: eachSum(() => NO_SUM),
    due: null,
  });
}

/** Builds the sums anew, one by one. */
export function eachSum(sumOf: (name: DevelopmentName) => DegreeDaySum): ThermalTimeState['sums'] {
  const entries = DEVELOPMENT_NAMES.map((name) => [name, sumOf(name)] as const);
  return Object.freeze(Object.fromEntries(entries) as Record<DevelopmentName, DegreeDaySum>);
}

/** Up to when hours have been taken, ms. */
export const nowOf = ({ hour, filledAt }: ThermalTimeState): number =>
  hour === null ? filledAt : hour + HOUR_ms;
