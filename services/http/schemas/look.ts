import { z } from 'zod';
import { LOOK_DUE_BY } from '../../core/keeping/index.js';
import { formatTime } from '../../core/model/time.js';
import type { LookView } from '../ports.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const lookSchema = z
  .object({
    bed: z.string(),
    name: z.string(),
    site: z.string(),
    due: z.boolean(),
    dueAt: timeTextSchema.nullable().meta({
      description:
        'Since when, or from when on; null where the bed is empty or nobody said that it was filled',
    }),
    lookedAt: timeTextSchema.nullable().meta({ description: 'When it was opened last since it was filled' }),
    reasons: z
      .array(
        z.object({
          by: z.enum(LOOK_DUE_BY),
          dueAt: timeTextSchema,
          text: z.string(),
          alarm: z.string().nullable(),
        }),
      )
      .meta({ description: 'In the order in which they fall due' }),
  })
  .meta({ id: 'Look', description: 'When a bed is to be looked into by hand, and why' });
export type LookAnswer = z.output<typeof lookSchema>;

export const lookAnswer = ({ bed, site, due, dueAt, lookedAt, reasons }: LookView): LookAnswer => ({
  ...{ bed: bed.id, name: bed.name, site, due },
  dueAt: formatKnownTime(dueAt),
  lookedAt: formatKnownTime(lookedAt),
  reasons: reasons.map((reason) => ({ ...reason, dueAt: formatTime(reason.dueAt) })),
});
