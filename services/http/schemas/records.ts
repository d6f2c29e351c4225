import { z } from 'zod';
import { fillingBodySchema } from '../../core/model/filling.js';
import { inspectionBodySchema } from '../../core/model/inspection.js';
import { stockBodySchema } from '../../core/model/stock.js';
import { HTTP_LIMITS } from '../limits.js';
import type { RecordsView } from '../ports.js';
import { filledAnswer, filledSchema } from './filling.js';
import { inspectedAnswer, inspectedSchema } from './inspection.js';
import { stockedAnswer, stockedSchema } from './stock.js';

const MOST = HTTP_LIMITS.writtenDown;

export const recordsBodySchema = z
  .strictObject({
    fillings: z.array(fillingBodySchema).max(MOST).default([]),
    inspections: z.array(inspectionBodySchema).max(MOST).default([]),
    stock: z.array(stockBodySchema).max(MOST).default([]),
  })
  .refine(
    ({ fillings, inspections, stock }) => {
      const count = fillings.length + inspections.length + stock.length;
      return count >= 1 && count <= MOST;
    },
    { path: [], message: `expected 1 to ${MOST} fillings, inspections and stock entries together` },
  );

export const recordsSchema = z
  .object({
    fillings: z.array(filledSchema),
    inspections: z.array(inspectedSchema),
    stock: stockedSchema.shape.entries,
    left: stockedSchema.shape.left,
  })
  .meta({ id: 'Records', description: 'What became of records that were written down at a bed' });
export type RecordsAnswer = z.output<typeof recordsSchema>;

export function recordsAnswer({ fillings, inspections, stock, left }: RecordsView): RecordsAnswer {
  return {
    fillings: fillings.map(filledAnswer),
    inspections: inspections.map(inspectedAnswer),
    stock: stockedAnswer({ entries: stock, left }).entries,
    left,
  };
}
