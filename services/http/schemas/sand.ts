/** Sand by what was measured of it, in answers. */
import { z } from 'zod';
import { SAND_FAULTS, type SandDocument } from '../../core/keeping/index.js';
import { idSchema } from '../../core/model/id.js';
import { type SandRecord, sandMeasuredSchema } from '../../core/model/sand.js';
import { HTTP_LIMITS } from '../limits.js';
import { limitSchema, metSchema } from './limit.js';
import { countQuerySchema } from './query.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const sandQuerySchema = z.strictObject({
  bed: idSchema.optional().meta({ description: 'Keep it as a record of this bed' }),
});

export const sandListQuerySchema = z.strictObject({
  limit: countQuerySchema(1, HTTP_LIMITS.records.most).default(HTTP_LIMITS.records.usual),
});

const sizeSchema = z.object({
  is: z
    .enum(['known', 'below', 'above'])
    .meta({ description: 'below or above: mm is the opening of the last sieve' }),
  mm: z.number(),
});
const shareSchema = z.object({ low: z.number(), high: z.number() }).meta({ description: '% by mass' });

const grainsSchema = z.object({
  verdict: z.enum(['good', 'too dirty', 'too fine', 'too coarse', 'unknown']),
  plain: z.string().meta({ description: 'The verdict in plain words' }),
  sentence: z.string(),
  D10: sizeSchema,
  D30: sizeSchema,
  D50: sizeSchema,
  D60: sizeSchema,
  Cu: z.number().nullable(),
  Cc: z.number().nullable(),
  fines_percent: shareSchema,
  gravel_percent: shareSchema,
  USCS: z.array(z.string()).meta({ description: 'Every symbol that fits what is known (ASTM D2487)' }),
  USCS_remark: z.string(),
  Wentworth: z.string().nullable(),
  conductivity_m_s: z
    .number()
    .nullable()
    .meta({ description: 'For water, saturated, by Hazen; null where that does not hold' }),
  conductivity_remark: z.string(),
  loss_percent: z.number().nullable(),
  sum_g: z.number(),
  finer: z.array(z.object({ opening_mm: z.number(), finer_percent: z.number() })),
  checks: z.array(
    z.object({
      fault: z.enum(SAND_FAULTS),
      state: metSchema,
      measure: z.string(),
      reason: z.string(),
      limit: limitSchema,
    }),
  ),
});

const moistureSchema = z.object({
  water_percent: z.number().meta({ description: 'Of the dry mass' }),
  uncertainty_percent: z.number().meta({ description: 'Standard, k = 1' }),
  dampness: z.enum(['dry', 'damp', 'wet']),
  dryEnough: metSchema,
  drying: z
    .enum(['constant', 'losing', 'gained', 'unknown'])
    .meta({ description: 'Whether it had dried out' }),
  method: z.string(),
  sentence: z.string(),
  limits: z.array(limitSchema),
});

const coolingSchema = z.object({
  above_C: z.number(),
  least_h: z.number().meta({ description: 'Until it is cool enough, at the least' }),
  verdict: z.enum(['fill', 'wait until evening', 'wait longer']),
  sentence: z.string(),
  limit: limitSchema,
});

export const sandReportSchema = z
  .object({
    grains: grainsSchema.optional(),
    moisture: moistureSchema.optional(),
    cooling: coolingSchema.optional(),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'SandReport' });

export const sandSchema = z
  .object({
    id: z.string().nullable().meta({ description: 'null where it was judged only, and not kept' }),
    bed: z.string().nullable(),
    at: timeTextSchema.nullable(),
    by: z.string().nullable(),
    note: z.string().nullable(),
    measured: sandMeasuredSchema.nullable(),
    report: sandReportSchema,
  })
  .meta({ id: 'Sand', description: 'What was measured of a sand comes to, by the limits in force now' });

export type SandAnswer = z.output<typeof sandSchema>;

/** @param record where it is kept; without it the answer has no id, bed, time or name */
export const sandAnswer = (report: SandDocument, record?: SandRecord): SandAnswer => ({
  id: record?.id ?? null,
  bed: record?.bed ?? null,
  at: formatKnownTime(record?.at ?? null),
  by: record?.by ?? null,
  note: record?.note ?? null,
  measured: record?.measured ?? null,
  report,
});
