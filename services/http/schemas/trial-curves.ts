/** Treatments over time, in questions and answers. */
import { z } from 'zod';
import type { SummaryCurve } from '../../core/trials/index.js';

export const curvesQuerySchema = z.strictObject({
  of: z.enum(['loss', 'excess']).default('loss'),
  by: z.enum(['filling', 'calendar']).default('filling').meta({
    description: 'Days since each bed was filled, or days of the calendar',
  }),
});

export const curvesSchema = z
  .object({
    trial: z.string(),
    of: z.string(),
    by: z.string(),
    unit: z.string(),
    treatments: z.array(
      z.object({
        treatment: z.string(),
        points: z.array(
          z.object({
            time: z
              .number()
              .meta({ description: 'Days since the filling, or ms of a day of the calendar (UTC)' }),
            beds: z.int(),
            mean: z.number(),
            low: z.number().nullable(),
            high: z.number().nullable(),
          }),
        ),
      }),
    ),
  })
  .meta({
    id: 'TrialCurves',
    description: 'Means of the beds of each treatment with pointwise 95 % intervals',
  });
export type CurvesAnswer = z.output<typeof curvesSchema>;

export const curvesAnswer = (
  trial: string,
  { of, by }: { of: 'loss' | 'excess'; by: string },
  curves: readonly SummaryCurve[],
): CurvesAnswer => ({
  ...{ trial, of, by, unit: of === 'loss' ? '%' : '°C' },
  treatments: curves.map(({ treatment, points }) => ({ treatment, points: [...points] })),
});
