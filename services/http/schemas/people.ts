/** Telling people and hearing back, in questions and answers. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { whoSchema } from '../../core/model/who.js';
import type { AnswerView, DrillView } from '../ports.js';
import { countQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

export const drillBodySchema = z.strictObject({ bed: idSchema, by: whoSchema });

export const drillSchema = z
  .object({
    id: z.string(),
    bed: z.string(),
    at: timeTextSchema,
    by: z.string(),
    messages: z.array(
      z.object({
        person: z.string().meta({ description: 'Or "site": the console and the webhooks of the site' }),
        via: z.string(),
        after_s: z
          .number()
          .nullable()
          .meta({ description: 'Seconds until it was handed over; null while it was not' }),
        received_s: z.number().nullable().meta({
          description:
            'Seconds until the network said that the receiver has it; null where it has not said so',
        }),
        gone: z.boolean().meta({ description: 'Handed over, or still tried' }),
        error: z.string().nullable(),
      }),
    ),
    without: z.array(z.string()).meta({ description: 'People who have no way that can be used here' }),
  })
  .meta({ id: 'Drill', description: 'A marked test to everybody who would be told of a bed' });

export type DrillAnswer = z.output<typeof drillSchema>;

export const drillAnswer = ({ at, messages, without, ...rest }: DrillView): DrillAnswer => ({
  ...rest,
  ...{ at: formatTime(at), messages: [...messages], without: [...without] },
});

export const answerSchema = z
  .object({
    via: z.string(),
    sender: z.string(),
    text: z.string(),
    at: timeTextSchema,
    site: z.string().nullable(),
    person: z.string().nullable().meta({ description: 'null for a sender whom nobody knows' }),
    outcome: z.string(),
  })
  .meta({ id: 'Answer' });

export const answerAnswer = ({ at, ...rest }: AnswerView): z.output<typeof answerSchema> => ({
  ...rest,
  at: formatTime(at),
});

export const answersQuerySchema = z.strictObject({ limit: countQuerySchema(1, 500).prefault(50) });
export const figuresQuerySchema = z.strictObject({ days: countQuerySchema(1, 400).prefault(30) });

export const figuresSchema = z
  .object({
    site: z.string(),
    people: z.array(z.object({ person: z.string(), messages: z.number(), messages_per_week: z.number() })),
    told: z.number(),
    answered: z.number(),
    answered_share: z.number().nullable(),
    answer_min: z.object({ median: z.number(), percentile_90: z.number() }).nullable(),
    alarms_per_keeper_day: z.number().nullable(),
    recommended: z.object({ acceptable_per_day: z.number(), most_per_day: z.number(), source: z.string() }),
    languages: z.array(
      z.object({
        language: z.string(),
        name: z.string(),
        draft: z.boolean().meta({ description: 'No native speaker has read its texts' }),
      }),
    ),
  })
  .meta({ id: 'TellingFigures' });

export const linkQuerySchema = z.strictObject({ t: z.string().min(1).max(1500) });
