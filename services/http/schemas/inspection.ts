import { z } from 'zod';
import { FINDINGS, type Inspection } from '../../core/model/inspection.js';
import { formatTime } from '../../core/model/time.js';
import { timeTextSchema } from './time.js';

/** An inspection in an answer. */
export const inspectionSchema = z
  .object({
    id: z.string(),
    bed: z.string(),
    at: timeTextSchema,
    by: z.string(),
    opened: z.boolean(),
    repacked: z.boolean(),
    found: z.array(z.enum(FINDINGS)),
  })
  .meta({ id: 'Inspection', description: 'Somebody opened the bed and wrote down what they found' });

export type InspectionAnswer = z.output<typeof inspectionSchema>;

export function inspectionAnswer(inspection: Inspection): InspectionAnswer {
  const { id, bed, at, by, opened, repacked, found } = inspection;
  return { id, bed, at: formatTime(at), by, opened, repacked, found: [...found] };
}
