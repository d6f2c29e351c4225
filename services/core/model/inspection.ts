import { z } from 'zod';
import { inspectionDetailShape, inspectionProblems } from './inspection-detail.js';
import type { Problem } from './site.js';
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
  .superRefine((body, context) => {
    for (const { path, message } of [...frameProblems(body), ...inspectionProblems(body, body)])
      context.addIssue({ code: 'custom', path, message });
  });

function frameProblems({ opened, repacked, found }: Frame): Problem[] {
  const problems: Problem[] = [];
  if (repacked && !opened)
    problems.push({
      path: ['opened'],
      message: 'expected true where repacked is true: a bed is opened to be repacked, got false',
    });
  if (found.length > 1 && found.includes('nothing'))
    problems.push({
      path: ['found'],
      message: `expected "nothing" alone, or what was found, got ${found.join(', ')}`,
    });
  return problems;
}

interface Frame {
  readonly opened: boolean;
  readonly repacked: boolean;
  readonly found: readonly Finding[];
}

export type InspectionBody = z.output<typeof inspectionBodySchema>;

export interface Inspection extends InspectionBody {
  readonly id: string;
  readonly bed: string;
}
