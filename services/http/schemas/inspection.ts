import { z } from 'zod';
import { FINDINGS, type Inspection } from '../../core/model/inspection.js';
import { inspectionDetailShape } from '../../core/model/inspection-detail.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { InspectedView } from '../ports.js';
import { alarmAnswer, alarmSchema } from './alarm.js';
import { countQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

const { id: _, ...detail } = inspectionDetailShape;

/** An inspection in an answer; what nobody wrote down is absent. */
export const inspectionSchema = z
  .object({
    id: z.string(),
    bed: z.string(),
    at: timeTextSchema,
    by: z.string(),
    opened: z.boolean(),
    repacked: z.boolean(),
    found: z.array(z.enum(FINDINGS)),
    ...detail,
  })
  .meta({ id: 'Inspection', description: 'Somebody opened the bed and wrote down what they found' });

export type InspectionAnswer = z.output<typeof inspectionSchema>;

export function inspectionAnswer(inspection: Inspection): InspectionAnswer {
  const { id, bed, at, by, opened, repacked, found, ...rest } = inspection;
  return { id, bed, at: formatTime(at), by, opened, repacked, found: [...found], ...rest };
}

const adviceSchema = z
  .object({ about: z.string(), text: z.string(), source: z.string() })
  .meta({ description: 'What to do, and where that comes from' });

/** An inspection with what follows from it. */
export const inspectedSchema = inspectionSchema
  .extend({
    advice: z.array(adviceSchema).meta({ description: 'The most urgent first' }),
    cautions: z.array(z.string()),
    alarms: z.array(alarmSchema).meta({
      description: 'Alarms that it speaks of, as they stand now; `foundOut` says whether they were right',
    }),
    ended: z.array(z.string()).meta({ description: 'Ids of alarms that were open before and are over now' }),
    judged: z.boolean().meta({
      description: 'False where it comes so late that the bed is judged again from there in a while',
    }),
    left: z.number().int().nullable().meta({
      description: 'Roots left by the ledger; null where nobody wrote down what went in',
    }),
    notes: z.array(z.string()),
    isNew: z.boolean().meta({ description: 'False where it had been sent before' }),
  })
  .meta({ id: 'Inspected' });

export type InspectedAnswer = z.output<typeof inspectedSchema>;

export function inspectedAnswer(view: InspectedView): InspectedAnswer {
  const { inspection, advice, cautions, alarms, ended, judged, left, notes, isNew } = view;
  return {
    ...inspectionAnswer(inspection),
    advice: advice.map((one) => ({ ...one })),
    alarms: alarms.map((alarm) => alarmAnswer(alarm)),
    ...{ cautions: [...cautions], ended: [...ended], judged, left, notes: [...notes], isNew },
  };
}

export const inspectionPathSchema = z.strictObject({ inspection: z.string().min(1).max(36) });

export const inspectionQuerySchema = z.strictObject({
  limit: countQuerySchema(1, HTTP_LIMITS.inspections.most)
    .prefault(HTTP_LIMITS.inspections.usual)
    .meta({ description: 'Inspections on one page' }),
  after: z.string().min(1).max(36).optional().meta({
    description: 'Id of the last inspection already seen',
  }),
});
