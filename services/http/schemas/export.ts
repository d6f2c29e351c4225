/** What may be asked to be exported. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { QUANTITIES } from '../../core/model/quantity.js';
import { HTTP_LIMITS } from '../limits.js';
import { idsQuerySchema, yesQuerySchema } from './query.js';
import { timeQuerySchema } from './time.js';

const CHOICES = ['beds', 'site', 'trial'] as const;

export const exportQuerySchema = z
  .strictObject({
    beds: idsQuerySchema(HTTP_LIMITS.bedsExported).optional().meta({
      description: 'Ids of beds with commas between; of beds, site and trial one is to be given',
    }),
    site: idSchema.optional().meta({ description: 'Id of a site: all its beds, and its shade' }),
    trial: idSchema.optional().meta({ description: 'Id of a trial: its beds' }),
    from: timeQuerySchema
      .optional()
      .meta({ description: 'Measured at this time or later; from the first reading where absent' }),
    to: timeQuerySchema
      .optional()
      .meta({ description: 'Measured before this time; to the last reading where absent' }),
    shade: yesQuerySchema.optional().meta({
      description:
        'true gives what was measured in the shade outside too, false does not; of a site true where absent',
    }),
    quantities: z
      .string()
      .transform((text) => text.split(','))
      .pipe(z.array(z.enum(QUANTITIES)).min(1).max(QUANTITIES.length))
      .default(['temperature', 'humidity'])
      .meta({ description: 'Names with commas between; temperature and humidity where absent' }),
  })
  .refine((query) => CHOICES.filter((name) => query[name] !== undefined).length === 1, {
    message: `expected one of ${CHOICES.join(', ')}`,
  });

export const packageQuerySchema = z.strictObject({
  ...exportQuerySchema.shape,
  format: z.enum(['csv', 'parquet']).default('csv').meta({ description: 'Of the rows; csv where absent' }),
});
