import { z } from 'zod';
import { DEPTH_VERDICTS } from '../../core/keeping/index.js';
import { massFilled_kg, rootsFilled } from '../../core/model/filling.js';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import type { BuriedView, DepthView, FilledView, FillingView } from '../ports.js';
import { timeTextSchema } from './time.js';

const buriedShape = { probe: z.string(), x: z.number(), y: z.number(), depth: z.number() };

/** A filling in an answer. */
export const fillingSchema = z
  .object({
    id: z.string(),
    bed: z.string(),
    at: timeTextSchema,
    by: z.string(),
    courses: z.array(z.object({ roots: z.number().int(), mass_kg: z.number().optional() })),
    roots: z.number().int().meta({ description: 'Of all courses' }),
    mass_kg: z.number().nullable().meta({ description: 'Of all roots; null where not all were weighed' }),
    cultivar: z.string().optional(),
    field: z.string().optional(),
    lot: z.string().optional(),
    buried: z.array(z.object(buriedShape)),
    supersedes: z.string().optional(),
    note: z.string().optional(),
    inForce: z.boolean().meta({ description: 'False where another filling took its place' }),
  })
  .meta({ id: 'Filling', description: 'What went into a bed, and where its probes were buried' });

const rangeSchema = z.object({ low: z.number(), likely: z.number(), high: z.number() });

const expectedSchema = z.object({
  ...buriedShape,
  share: rangeSchema.meta({ description: 'Of the swing between day and night outside, 0..1' }),
  lag_h: rangeSchema.meta({ description: 'By how much later it is warmest than the air outside' }),
  text: z.string(),
});

/** A filling with what its probes should show within a day. */
export const filledSchema = fillingSchema
  .extend({
    probes: z.array(expectedSchema),
    notes: z.array(z.string()),
    cautions: z.array(z.string()),
    isNew: z.boolean().meta({ description: 'False where it had been sent before' }),
  })
  .meta({ id: 'Filled' });

export type FillingAnswer = z.output<typeof fillingSchema>;
export type FilledAnswer = z.output<typeof filledSchema>;

const liesSchema = z.object({
  ...{ low: z.number(), likely: z.number().nullable(), high: z.number().nullable() },
});

export const depthSchema = z
  .object({
    ...buriedShape,
    verdict: z.enum(DEPTH_VERDICTS),
    share: z.number().nullable().meta({ description: 'Of the swing outside, 0..1; null where not measured' }),
    lag_h: z.number().nullable(),
    lies: liesSchema.nullable().meta({
      description:
        'How deep it may lie by its swing, 95 %, cm; likely is null where only a bound is known, high where it may lie as deep as the bed',
    }),
    judgedFrom: timeTextSchema,
    judgedTo: timeTextSchema.meta({ description: 'The verdict may change with readings up to then' }),
    text: z.string(),
  })
  .meta({ id: 'BuriedProbe', description: 'Whether a probe lies as deep as was said' });
export type DepthAnswer = z.output<typeof depthSchema>;

export const fillingPathSchema = z.strictObject({ bed: idSchema, filling: z.uuid().toLowerCase() });

/** Times as text, mass in kg. */
export function fillingAnswer({ filling, inForce }: FillingView): FillingAnswer {
  const { probes, at, courses, ...rest } = filling;
  return {
    ...rest,
    at: formatTime(at),
    courses: courses.map((course) => ({ ...course })),
    roots: rootsFilled(filling),
    mass_kg: massFilled_kg(filling) ?? null,
    buried: probes.map((one) => ({ ...one })),
    inForce,
  };
}

/** To thousandths: more digits say nothing. */
const brief = (value: number): number => Number(value.toPrecision(3));
const briefly = ({ low, likely, high }: BuriedView['expected']['share']) => ({
  ...{ low: brief(low), likely: brief(likely), high: brief(high) },
});

export function filledAnswer(view: FilledView): FilledAnswer {
  return {
    ...fillingAnswer(view),
    probes: view.probes.map(({ expected: { share, lag_h }, ...buried }) => ({
      ...{ ...buried, share: briefly(share), lag_h: briefly(lag_h) },
    })),
    ...{ notes: [...view.notes], cautions: [...view.cautions], isNew: view.isNew },
  };
}

export const depthAnswer = (view: DepthView): DepthAnswer => {
  const { judgement, judgedFrom, judgedTo, text, ...buried } = view;
  const { verdict, share, lag_h, lies } = judgement;
  return {
    ...{ ...buried, verdict, text, lies: lies && { ...lies } },
    ...{ judgedFrom: formatTime(judgedFrom), judgedTo: formatTime(judgedTo) },
    share: share === null ? null : brief(share),
    lag_h: lag_h === null ? null : brief(lag_h),
  };
};
