/** Thresholds in answers, with their value in force and where it was set. */
import { z } from 'zod';
import { THRESHOLD_GROUPS, type ThresholdSetting } from '../../core/model/threshold-settings.js';

const valueSchema = z.union([z.number(), z.string()]);

export const thresholdSchema = z
  .object({
    name: z.string(),
    group: z.enum(THRESHOLD_GROUPS),
    meaning: z.string().meta({ description: 'What it decides' }),
    unit: z.string(),
    low: z
      .number()
      .nullable()
      .meta({ description: 'Least that it can be set to; null for a time of the clock' }),
    high: z.number().nullable(),
    default: valueSchema,
    source: z.string().meta({ description: 'Where the default comes from' }),
    value: valueSchema.meta({ description: 'In force' }),
    setAt: z.enum(['default', 'site', 'bed']).meta({ description: 'Where the value in force was set' }),
    otherwise: valueSchema.meta({ description: 'What would be in force if it were not set here' }),
    path: z.array(z.string()).meta({ description: 'Where it is set in the description of the bed or site' }),
  })
  .meta({ id: 'Threshold' });

export const thresholdAnswer = ({ path, ...rest }: ThresholdSetting): z.output<typeof thresholdSchema> => ({
  ...rest,
  path: [...path],
});
