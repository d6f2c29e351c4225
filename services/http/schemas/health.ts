import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import type { Health } from '../ports.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const healthSchema = z
  .object({
    status: z.enum(['ok', 'degraded']),
    problems: z.array(z.string()).meta({ description: 'In words, one for each thing that is wrong' }),
    accepting: z.boolean().meta({ description: 'Readings are being accepted' }),
    version: z.string(),
    startedAt: z.string().meta({ format: 'date-time', description: 'By the wall clock' }),
    broker: z.object({ kind: z.enum(['built-in', 'external']), connected: z.boolean() }),
    newestReadingAt: timeTextSchema.nullable(),
    watchLag: z
      .object({
        beds: z.number().int(),
        hours: z.number(),
        byBed: z
          .array(z.object({ bed: z.string(), hours: z.number() }))
          .meta({ description: 'Hours of each bed that are still to judge' }),
      })
      .meta({ description: 'Beds with hours still to judge, and how many hours that is at the most' }),
    outboxWaiting: z.number().int().meta({ description: 'Messages that are not delivered yet' }),
  })
  .meta({ id: 'Health' });

export function healthAnswer(health: Health): z.output<typeof healthSchema> {
  const { status, problems, accepting, version, broker, watchLag, outboxWaiting } = health;
  return {
    status,
    problems: [...problems],
    accepting,
    version,
    startedAt: formatTime(health.startedAt),
    broker,
    newestReadingAt: formatKnownTime(health.newestReadingAt),
    watchLag: { ...watchLag, byBed: [...watchLag.byBed] },
    outboxWaiting,
  };
}
