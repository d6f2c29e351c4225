/** A travelling reference beside a buried probe. */
import { z } from 'zod';
import { CALIBRATED_QUANTITIES, type CalibratedQuantity } from './calibration.js';
import { idSchema } from './id.js';
import { DAY_ms, timeSchema } from './time.js';
import { whoSchema } from './who.js';

/** Longest span of a check, days: a day is usual. */
const SPAN_days = 31;

/** The body of `POST /api/field-checks`. */
export const fieldCheckBodySchema = z
  .strictObject({
    site: idSchema,
    probe: idSchema,
    /** The travelling reference, itself a probe with a calibration in force. */
    reference: idSchema,
    quantity: z.enum(CALIBRATED_QUANTITIES),
    from: timeSchema,
    to: timeSchema,
    by: whoSchema,
    /** Greatest difference that is taken, °C or %RH; the site's tolerance where absent. */
    bound: z.number().positive().max(50).optional(),
    /** Standard uncertainty from the two not lying at one point, °C or %RH. */
    placeUncertainty: z.number().nonnegative().max(20).optional(),
    note: z.string().trim().min(1).max(1000).optional(),
  })
  .refine(({ from, to }) => from < to, { path: ['to'], message: 'expected a time after "from"' })
  .refine(({ from, to }) => to - from <= SPAN_days * DAY_ms, {
    path: ['to'],
    message: `expected at most ${SPAN_days} days after "from"`,
  })
  .refine(({ probe, reference }) => probe !== reference, {
    path: ['reference'],
    message: 'expected another probe than the one that is checked',
  });
export type FieldCheckBody = z.output<typeof fieldCheckBodySchema>;

export interface FieldCheckRecord extends Omit<FieldCheckBody, 'bound' | 'placeUncertainty'> {
  readonly id: string;
  readonly quantity: CalibratedQuantity;
  readonly bound: number;
  readonly placeUncertainty: number;
  /** Mean of probe less reference, both corrected, with its expanded uncertainty (k = 2 or more); °C or %RH. */
  readonly difference: number;
  readonly expandedUncertainty: number;
  /** Normalized error of ISO/IEC 17043: 1 or less agrees within the uncertainties. */
  readonly enNumber: number;
  readonly pairs: number;
  readonly verdict: 'agrees' | 'disagrees' | 'undecided';
  readonly sentence: string;
}
