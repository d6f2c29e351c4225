import { z } from 'zod';
import { TODAY_KINDS, TODAY_WHEN, type TodayItem } from '../../core/keeping/index.js';
import { ACTIONS } from '../../core/model/alarm.js';
import { LANGUAGE_CODES } from '../../core/model/languages.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { TodayView } from '../ports.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const todayQuerySchema = z.strictObject({
  language: z
    .enum(LANGUAGE_CODES)
    .prefault('en')
    .meta({ description: 'Of the texts, where it has the words' }),
});

const inHandSchema = z
  .object({
    how: z.enum(['seen', 'put-off']),
    by: z.string(),
    at: timeTextSchema,
    until: timeTextSchema.nullable().meta({ description: 'Of what is put off' }),
  })
  .nullable()
  .meta({ description: 'Who has seen it or put it off; null where nobody has' });

const itemSchema = z.object({
  when: z.enum(TODAY_WHEN),
  kind: z.enum(TODAY_KINDS),
  site: z.string().nullable(),
  bed: z.object({ id: z.string(), name: z.string() }).nullable(),
  probe: z.string().nullable(),
  alarm: z.string().nullable().meta({ description: 'Id of the alarm that it comes from' }),
  action: z.enum(ACTIONS).nullable().meta({ description: 'What that alarm asks for, or rot that was left' }),
  isOverdueLook: z
    .boolean()
    .meta({ description: 'Whether it is nothing but a look by hand that is overdue' }),
  since: timeTextSchema.nullable(),
  inHand: inHandSchema,
  text: z.string().meta({ description: 'A sentence or two: what, and what to do' }),
  language: z.enum(LANGUAGE_CODES).meta({ description: 'Of the text' }),
});

export const todaySchema = z
  .object({
    at: timeTextSchema,
    language: z.enum(LANGUAGE_CODES),
    nativeReviewed: z.boolean().meta({ description: 'Where not, texts in that language are drafts' }),
    items: z.array(itemSchema),
    more: z.number().int().meta({ description: 'Further ones, for which there is no room' }),
  })
  .meta({ id: 'Today', description: 'What needs a person: what is to be done today first' });

type TodayAnswer = z.output<typeof todaySchema>;

export function todayAnswer({ at, language, nativeReviewed, items }: TodayView): TodayAnswer {
  const shown = items.slice(0, HTTP_LIMITS.today);
  return {
    ...{ at: formatTime(at), language, nativeReviewed },
    ...{ items: shown.map(itemAnswer), more: items.length - shown.length },
  };
}

const itemAnswer = ({ since, inHand, ...item }: TodayItem): TodayAnswer['items'][number] => ({
  ...item,
  since: formatKnownTime(since),
  inHand: inHand && { ...inHand, at: formatTime(inHand.at), until: formatKnownTime(inHand.until) },
});
