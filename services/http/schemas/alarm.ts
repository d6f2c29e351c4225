import { z } from 'zod';
import { ALARM_ID_LENGTH } from '../../core/alarms/alarm-id.js';
import {
  ACTIONS,
  ALARM_KINDS,
  ALARM_STATES,
  type Alarm,
  PRIORITIES,
  VERDICTS,
} from '../../core/model/alarm.js';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { Said } from '../ports.js';
import { languageSchema } from './language.js';
import { countQuerySchema } from './query.js';
import { formatKnownTime, timeQuerySchema, timeTextSchema } from './time.js';

const acknowledgementSchema = z.object({ by: z.string(), note: z.string(), at: timeTextSchema });

const placeSchema = z.object({ x: z.number(), y: z.number(), depth: z.number(), radius: z.number() }).meta({
  description: 'Where to dig, in cm: x and y from the north-west corner, depth from the top of the sand',
});

/** An alarm in an answer: the outside contract's form of it. */
export const alarmSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    bed: z.string(),
    kind: z.enum(ALARM_KINDS),
    priority: z.enum(PRIORITIES),
    state: z.enum(ALARM_STATES).meta({ description: 'Life cycle of IEC 62682' }),
    raisedAt: timeTextSchema,
    clearedAt: timeTextSchema.nullable(),
    action: z.enum(ACTIONS),
    evidence: z.record(z.string(), z.union([z.number(), z.string()])).meta({
      description: 'What it rests on, as it is known by now; numbers carry their unit in the name',
    }),
    place: placeSchema.nullable(),
    text: z.string(),
    language: z.string().meta({ description: 'Of the text' }),
    draft: z.boolean().meta({ description: 'No native speaker has read the words of the text' }),
    acknowledgement: acknowledgementSchema.nullable(),
    shelving: z
      .object({ by: z.string(), at: timeTextSchema, until: timeTextSchema })
      .nullable()
      .meta({ description: 'The last request for silence; the state says whether it lasts' }),
    foundOut: z
      .object({ verdict: z.enum(VERDICTS), lookedAt: timeTextSchema.nullable() })
      .nullable()
      .meta({
        description:
          'What an inspection within a week said of it; unseen: nobody looked; untold: somebody looked, and opening the bed does not tell',
      }),
  })
  .meta({ id: 'Alarm', description: 'One condition that someone must act on' });

export type AlarmAnswer = z.output<typeof alarmSchema>;

export const alarmQuerySchema = z
  .strictObject({
    bed: idSchema.optional(),
    state: z.enum(ALARM_STATES).optional(),
    from: timeQuerySchema.optional().meta({ description: 'Raised at this time or later' }),
    to: timeQuerySchema.optional().meta({ description: 'Raised before this time' }),
    limit: countQuerySchema(1, HTTP_LIMITS.alarms.most)
      .prefault(HTTP_LIMITS.alarms.usual)
      .meta({ description: 'Alarms on one page' }),
    after: z.string().min(1).max(ALARM_ID_LENGTH).optional().meta({
      description: 'Id of the last alarm already seen',
    }),
    language: languageSchema,
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from < to, {
    path: ['to'],
    message: 'expected a time after "from"',
  });

/** @param said its text in the language that was asked for; as it was raised, in English, where absent */
export function alarmAnswer(
  alarm: Alarm,
  said: Said = { text: alarm.text, language: 'en', draft: false },
): AlarmAnswer {
  const { id, site, bed, kind, priority, state, action, evidence, place, acknowledgement, foundOut } = alarm;
  return {
    id,
    site,
    bed,
    kind,
    priority,
    state,
    raisedAt: formatTime(alarm.raisedAt),
    clearedAt: formatKnownTime(alarm.clearedAt),
    action,
    evidence,
    place,
    ...said,
    acknowledgement: acknowledgement && { ...acknowledgement, at: formatTime(acknowledgement.at) },
    shelving: shelvingAnswer(alarm.shelving),
    foundOut: foundOut ? { verdict: foundOut.verdict, lookedAt: formatKnownTime(foundOut.lookedAt) } : null,
  };
}

function shelvingAnswer(shelving: Alarm['shelving']): AlarmAnswer['shelving'] {
  if (!shelving) return null;
  const { by, at, until } = shelving;
  return { by, at: formatTime(at), until: formatTime(until) };
}
