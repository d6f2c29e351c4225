import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { QuarantineEntry } from '../ports.js';
import { countQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

const { most, usual } = HTTP_LIMITS.quarantine;

export const quarantineQuerySchema = z.strictObject({
  limit: countQuerySchema(1, most).prefault(usual).meta({ description: 'Entries to give at the most' }),
});

export const quarantineEntrySchema = z
  .object({
    reason: z.string(),
    topic: z.string(),
    detail: z.string().meta({ description: 'What was expected and what came' }),
    payload: z.string().meta({ contentEncoding: 'base64', description: 'The first bytes of the message' }),
    count: z.number().int(),
    firstAt: timeTextSchema,
    lastAt: timeTextSchema,
  })
  .meta({ id: 'QuarantineEntry', description: 'What was set aside, and why' });

export function quarantineAnswer(entry: QuarantineEntry): z.output<typeof quarantineEntrySchema> {
  const { reason, topic, detail, payload, count, firstAt, lastAt } = entry;
  return { reason, topic, detail, payload, count, firstAt: formatTime(firstAt), lastAt: formatTime(lastAt) };
}
