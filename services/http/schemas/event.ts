import { z } from 'zod';
import { EVENT_KINDS } from '../../core/keeping/index.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { BedEvent } from '../ports.js';
import { countQuerySchema } from './query.js';
import { timeQuerySchema, timeTextSchema } from './time.js';

const { usual, most, id_characters } = HTTP_LIMITS.events;

const idOf = (what: string) =>
  z
    .string()
    .optional()
    .meta({ description: `Id of ${what}` });

export const eventSchema = z
  .object({
    id: z.string().meta({ description: 'For "after"' }),
    at: timeTextSchema.meta({
      description:
        'When it happened at the bed; of what became of an alarm afterwards (seen, moved, withdrawn) the time at which it did',
    }),
    kind: z.enum(EVENT_KINDS),
    text: z.string().meta({ description: 'A plain sentence, English' }),
    about: z
      .object({
        alarm: idOf('the alarm'),
        filling: idOf('the filling'),
        inspection: idOf('the inspection'),
        calibration: idOf('the calibration'),
        stock: idOf('the entry of the stock'),
        readiness: idOf('the record of readiness'),
        probe: idOf('the probe'),
      })
      .meta({ description: 'What it is about; what it is not about is absent' }),
  })
  .meta({ id: 'Event', description: 'Something that happened to a bed' });

export type EventAnswer = z.output<typeof eventSchema>;

export const eventQuerySchema = z
  .strictObject({
    from: timeQuerySchema.optional().meta({ description: 'At this time or later' }),
    to: timeQuerySchema.optional().meta({ description: 'Before this time' }),
    limit: countQuerySchema(1, most).prefault(usual).meta({ description: 'Events on one page' }),
    after: z.string().min(1).max(id_characters).optional().meta({
      description: 'Id of the last event already seen',
    }),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from < to, {
    path: ['to'],
    message: 'expected a time after "from"',
  });

export const eventAnswer = ({ id, at, kind, text, about }: BedEvent): EventAnswer => ({
  ...{ id, at: formatTime(at), kind, text, about },
});
