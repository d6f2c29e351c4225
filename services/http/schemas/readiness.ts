/** Whether a bed may be filled, in answers. */
import { z } from 'zod';
import { type Readiness, readinessSentence } from '../../core/keeping/index.js';
import { idSchema } from '../../core/model/id.js';
import {
  type HandAnswers,
  handAnswersSchema,
  ITEM_IDS,
  type OverrideRecord,
  READINESS_VERDICTS,
  type ReadinessRecord,
} from '../../core/model/readiness.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { ReadinessView } from '../ports.js';
import { limitSchema, metSchema } from './limit.js';
import { countQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

export const readinessPathSchema = z.strictObject({ bed: idSchema, id: z.string().min(1).max(64) });

export const readinessListQuerySchema = z.strictObject({
  limit: countQuerySchema(1, HTTP_LIMITS.records.most).default(HTTP_LIMITS.records.usual),
});

const itemSchema = z.object({
  id: z.enum(ITEM_IDS),
  question: z.string(),
  state: metSchema,
  measure: z.string().meta({ description: 'What was found, or why it is not known' }),
  limit: z.string().meta({ description: 'What it is held against, in words' }),
  limits: z.array(limitSchema),
  reason: z.string(),
  source: z.string(),
  answeredBy: z.enum(['probe', 'hand']),
});

const answersSchema = handAnswersSchema
  .unwrap()
  .extend({ nextLook: z.object({ by: z.string(), at: timeTextSchema }).optional() });

const overriddenSchema = z.object({
  by: z.string(),
  at: timeTextSchema,
  reason: z.string(),
  verdict: z.enum(['not ready', 'unknown']),
  points: z.array(z.enum(ITEM_IDS)).meta({ description: 'What it was given against' }),
});

const judgedShape = {
  kind: z.enum(['stepped-pit', 'box']),
  verdict: z.enum(READINESS_VERDICTS),
  sentence: z.string(),
  notMet: z.array(z.enum(ITEM_IDS)),
  unknown: z.array(z.enum(ITEM_IDS)),
  items: z.array(itemSchema).meta({ description: 'In the order in which they are gone through' }),
  answers: answersSchema,
};

export const readinessRecordSchema = z
  .object({
    ...{ id: z.string(), bed: z.string(), at: timeTextSchema, by: z.string(), ...judgedShape },
    overrides: z.array(overriddenSchema).meta({ description: 'In order of time' }),
  })
  .meta({ id: 'ReadinessRecord', description: 'Who found a bed ready or not; never changed' });

export type ReadinessRecordAnswer = z.output<typeof readinessRecordSchema>;

export const readinessSchema = z
  .object({
    bed: z.string(),
    at: timeTextSchema,
    ...judgedShape,
    cautions: z.array(z.string()),
    record: readinessRecordSchema.nullable().meta({ description: 'The last one of this filling' }),
  })
  .meta({ id: 'Readiness', description: 'Whether a bed may be filled, as its probes answer now' });

export type ReadinessAnswer = z.output<typeof readinessSchema>;

const itemsAnswer = (items: Readiness['items']) =>
  items.map(({ limits, ...rest }) => ({ ...rest, limits: [...limits] }));

const answersAnswer = ({ nextLook, ...rest }: HandAnswers): z.output<typeof answersSchema> => ({
  ...rest,
  ...(nextLook && { nextLook: { by: nextLook.by, at: formatTime(nextLook.at) } }),
});

const overrideAnswer = ({ at, points, ...rest }: OverrideRecord) => ({
  ...rest,
  at: formatTime(at),
  points: [...points],
});

export function readinessRecordAnswer(record: ReadinessRecord): ReadinessRecordAnswer {
  const { id, bed, at, by, kind, verdict, notMet, unknown, items, answers, overrides } = record;
  return {
    ...{ id, bed, at: formatTime(at), by, kind, verdict, sentence: readinessSentence(record) },
    ...{ notMet: [...notMet], unknown: [...unknown], items: itemsAnswer(items) },
    answers: answersAnswer(answers),
    overrides: overrides.map(overrideAnswer),
  };
}

export function readinessAnswer(bed: string, { readiness, answers, record }: ReadinessView): ReadinessAnswer {
  const { at, kind, verdict, sentence, notMet, unknown, items, cautions } = readiness;
  return {
    ...{ bed, at: formatTime(at), kind, verdict, sentence },
    ...{ notMet: [...notMet], unknown: [...unknown], items: itemsAnswer(items) },
    answers: answersAnswer(answers),
    cautions: [...cautions],
    record: record && readinessRecordAnswer(record),
  };
}
