import { z } from 'zod';
import { inspectionDetailShape, inspectionProblems } from './inspection-detail.js';
import { timeSchema } from './time.js';
import { whoSchema } from './who.js';

export const FINDINGS = ['rot', 'damp', 'sprouts', 'weevils', 'nothing'] as const;
export type Finding = (typeof FINDINGS)[number];

/** What somebody who opened the bed wrote down: the body of `POST /api/beds/{bed}/inspections`. */
export const inspectionBodySchema = z
  .strictObject({
    at: timeSchema,
    by: whoSchema,
    opened: z.boolean(),
    repacked: z.boolean(),
    found: z.array(z.enum(FINDINGS)).min(1).max(FINDINGS.length),
    ...inspectionDetailShape,
  })
  .refine(({ opened, repacked }) => opened || !repacked, {
    path: ['opened'],
    message: 'expected true where repacked is true: a bed is opened to be repacked',
  })
  .refine(({ found }) => found.length === 1 || !found.includes('nothing'), {
    path: ['found'],
    message: 'expected "nothing" alone, or what was found',
  })
  .superRefine((body, context) => {
    for (const { path, message } of inspectionProblems(body, body))
      context.addIssue({ code: 'custom', path, message });
  });

export type InspectionBody = z.output<typeof inspectionBodySchema>;

export interface Inspection extends InspectionBody {
  readonly id: string;
  readonly bed: string;
}
