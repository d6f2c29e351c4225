/** A bed before it is dug, in questions and answers. */
import { z } from 'zod';
import {
  BUCKET_L,
  GROUND_C,
  MEASURE_LIMITS,
  MOST_ASKED,
  type Plan,
  type PlanQuestion,
  ROOT_MASS_kg,
  USUAL_MEASURES,
} from '../../core/keeping/index.js';
import { SITE_LIMITS } from '../../core/model/site.js';
import { MOST_PROBES } from '../../core/watch/coverage/index.js';

const side_cm = z.number().positive().max(100_000);
const between = ({ low, high }: { readonly low: number; readonly high: number }) =>
  z.number().min(low).max(high);

const measuresBodySchema = z
  .strictObject({
    hand_cm: between(MEASURE_LIMITS.hand_cm).default(USUAL_MEASURES.hand_cm),
    span_cm: between(MEASURE_LIMITS.span_cm).default(USUAL_MEASURES.span_cm),
    forearm_cm: between(MEASURE_LIMITS.forearm_cm).default(USUAL_MEASURES.forearm_cm),
    stride_cm: between(MEASURE_LIMITS.stride_cm).default(USUAL_MEASURES.stride_cm),
  })
  .meta({ description: 'Of whoever digs; those of a grown person where absent' });

export const planBodySchema = z
  .strictObject({
    kind: z.enum(['stepped-pit', 'box']).default('stepped-pit'),
    steps: z
      .array(z.strictObject({ length: side_cm, width: side_cm, height: side_cm }))
      .min(1)
      .max(SITE_LIMITS.steps)
      .optional()
      .meta({ description: 'cm, from the top down; a bed is proposed for the roots where absent' }),
    roots: z.int().min(1).max(MOST_ASKED).optional(),
    roots_kg: z.number().min(ROOT_MASS_kg.low).max(MOST_ASKED).optional(),
    root_kg: between(ROOT_MASS_kg).optional(),
    bucket_L: between(BUCKET_L).optional(),
    measures: measuresBodySchema.optional(),
    probes: z.int().min(0).max(MOST_PROBES).optional().meta({
      description: 'How many to place; as many as are worth it where absent. Placing them takes some seconds',
    }),
    ground_C: between(GROUND_C).optional(),
  })
  .superRefine(({ steps, roots, roots_kg }, context) => {
    if (roots !== undefined && roots_kg !== undefined)
      context.addIssue({
        code: 'custom',
        path: ['roots_kg'],
        message: 'expected roots or roots_kg, got both',
      });
    if (steps === undefined && roots === undefined && roots_kg === undefined)
      context.addIssue({ code: 'custom', message: 'expected steps, roots or roots_kg, got none of them' });
  });

export const planQuestion = (body: z.output<typeof planBodySchema>): PlanQuestion => body;

export const planQuerySchema = z.strictObject({
  as: z
    .enum(['json', 'svg'])
    .optional()
    .meta({ description: 'svg: the drawing, as Accept: image/svg+xml asks' }),
});

const stepSchema = z.object({ length_cm: z.number(), width_cm: z.number(), height_cm: z.number() });

/** All figures of `sandlarder plan --json`; those that are named here are the ones that a program asks for. */
export const planSchema = z
  .looseObject({
    kind: z.enum(['stepped-pit', 'box']),
    proposed: z.boolean().meta({ description: 'Whether the bed was proposed here' }),
    fits: z.boolean(),
    nearest: z
      .object({ beds: z.int(), steps: z.array(stepSchema), most_roots: z.int() })
      .optional()
      .meta({ description: 'Where it does not fit: the nearest that does' }),
    beds: z.int().meta({ description: 'So many alike; all but all_beds is of one' }),
    steps: z.array(stepSchema),
    volume_L: z.object({ steps: z.array(z.number()), total: z.number() }),
    most_roots: z.int(),
    roots: z.int(),
    roots_kg: z.number(),
    courses: z
      .array(
        z.object({
          course: z.int(),
          step: z.int(),
          top_cm: z.number(),
          bottom_cm: z.number(),
          roots: z.int(),
        }),
      )
      .meta({ description: 'As they are laid, from the floor up' }),
    sand_L: z.number(),
    sand_kg: z.number(),
    buckets: z.int(),
    digging_L: z.number(),
    warmth_above_ground_C: z.object({ low: z.number(), mid: z.number(), high: z.number() }).nullable(),
    probes: z.array(z.object({ id: z.string(), x: z.number(), y: z.number(), depth: z.number() })),
    coverage_share: z.number(),
    take_along: z.array(z.object({ item: z.string(), amount: z.number(), unit: z.string() })),
    work: z.array(z.string()).meta({ description: 'What is done, in its order' }),
    cautions: z.array(z.string()),
    assumptions: z.record(
      z.string(),
      z.object({ value: z.number(), unit: z.string(), meaning: z.string(), source: z.string() }),
    ),
  })
  .meta({ id: 'Plan', description: 'A bed before it is dug; each figure with its unit in its key' });

export const planAnswer = (plan: Plan): z.output<typeof planSchema> =>
  JSON.parse(JSON.stringify(plan)) as z.output<typeof planSchema>;
