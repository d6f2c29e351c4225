/** A travelling reference beside a buried probe, in answers. */
import { z } from 'zod';
import { CALIBRATED_QUANTITIES } from '../../core/model/calibration.js';
import type { FieldCheckRecord } from '../../core/model/field-check.js';
import { formatTime } from '../../core/model/time.js';
import { timeTextSchema } from './time.js';

export const fieldCheckSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    probe: z.string(),
    reference: z.string(),
    quantity: z.enum(CALIBRATED_QUANTITIES),
    from: timeTextSchema,
    to: timeTextSchema,
    by: z.string(),
    note: z.string().optional(),
    bound: z.number(),
    placeUncertainty: z.number().meta({ description: 'Standard: the two do not lie at one point' }),
    difference: z.number().meta({ description: 'Mean of probe less reference, both corrected' }),
    expandedUncertainty: z.number().meta({ description: '95 %, k = 2 or more' }),
    enNumber: z.number().meta({ description: 'ISO/IEC 17043: 1 or less agrees within the uncertainties' }),
    pairs: z.number(),
    verdict: z.enum(['agrees', 'disagrees', 'undecided']),
    sentence: z.string(),
  })
  .meta({ id: 'FieldCheck' });

export type FieldCheckAnswer = z.output<typeof fieldCheckSchema>;

export function fieldCheckAnswer({ from, to, ...rest }: FieldCheckRecord): FieldCheckAnswer {
  return { ...rest, from: formatTime(from), to: formatTime(to) };
}
