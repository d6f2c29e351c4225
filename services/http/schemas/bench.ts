/** Bench work in answers. */
import { z } from 'zod';
import { UNIT, waitingWords } from '../../core/calibration/index.js';
import { BENCH_STATES } from '../../core/model/bench.js';
import { CALIBRATED_QUANTITIES, POINT_SOURCES, STEP_SOURCES } from '../../core/model/calibration.js';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { BenchView, CapturedView } from '../ports.js';
import { countQuerySchema } from './query.js';
import { formatKnownTime, timeTextSchema } from './time.js';

const captureSchema = z.object({
  probe: z.string(),
  at: timeTextSchema,
  from: timeTextSchema,
  to: timeTextSchema,
  indicated: z.number().meta({ description: 'Mean of the readings, °C or %RH' }),
  scatter: z.number().meta({ description: 'Standard deviation of single readings' }),
  count: z.number(),
  uncertainty: z.number().meta({ description: 'Standard, of the mean' }),
  step: z.number().optional().meta({ description: 'Step in which the probe tells its values' }),
  stepFrom: z.enum(STEP_SOURCES).optional().meta({
    description:
      'given; seen: its readings show it; usual: they show none, and that of a usual sensor is taken',
  }),
});

const pointSchema = z.object({
  number: z.number().meta({ description: 'From 1' }),
  startedAt: timeTextSchema,
  source: z.enum(POINT_SOURCES),
  reference: z.number(),
  referenceUncertainty: z.number().meta({ description: 'Standard, k = 1' }),
  temperature_C: z.number().optional(),
  label: z.string(),
  basis: z.string().meta({ description: 'Where value and uncertainty come from' }),
  captured: z.array(captureSchema),
});

const settlingSchema = z.object({
  probe: z.string(),
  captured: z.boolean(),
  settled: z.boolean(),
  words: z.string().meta({ description: 'settled, or how long it may still take' }),
  reason: z.string(),
  remaining_s: z.number().nullable().meta({ description: 'null where nobody can tell' }),
  latest: z
    .number()
    .nullable()
    .meta({ description: 'What it shows now; null before its first reading here' }),
  latestAt: timeTextSchema.nullable(),
  mean: z.number().nullable().meta({ description: 'Of the readings that were judged' }),
  scatter: z.number().nullable(),
  slope_perMinute: z.number().nullable(),
  readings: z.number().meta({ description: 'Since the point began' }),
  trace: z
    .array(z.object({ at: timeTextSchema, value: z.number() }))
    .meta({ description: 'The last 40 minutes at this point, thinned, for a plot' }),
});

/** Bench work with how its probes settle at the current point. */
export const benchSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    quantity: z.enum(CALIBRATED_QUANTITIES),
    probes: z.array(z.string()),
    by: z.string(),
    startedAt: timeTextSchema,
    state: z.enum(BENCH_STATES),
    endedAt: timeTextSchema.nullable(),
    reason: z.string().nullable(),
    points: z.array(pointSchema),
    settling: z.array(settlingSchema).meta({ description: 'At the current point of a bench that is open' }),
    warnings: z.array(z.string()).meta({ description: 'What stands in the way of the work' }),
    cautions: z.array(z.string()).meta({ description: 'Of what stands on the bench now' }),
    calibrations: z.array(z.string()),
    finishedProbes: z.array(z.string()).meta({ description: 'Of these calibrations, in the same order' }),
  })
  .meta({ id: 'Bench', description: 'Probes that are calibrated together' });

export type BenchAnswer = z.output<typeof benchSchema>;

/** Bench work after a capture. */
export const capturedSchema = benchSchema
  .extend({
    waiting: z
      .array(z.object({ probe: z.string(), reason: z.string() }))
      .meta({ description: 'Probes that were not captured, and why' }),
  })
  .meta({ id: 'Captured', description: 'A bench after probes were captured' });

export type CapturedAnswer = z.output<typeof capturedSchema>;

export const capturedAnswer = (view: CapturedView): CapturedAnswer => ({
  ...benchAnswer(view),
  waiting: [...view.waiting],
});

export function benchAnswer({ bench, settling, cautions, warnings }: BenchView): BenchAnswer {
  const { id, site, quantity, probes, by, state, reason, calibrations } = bench;
  return {
    ...{ id, site, quantity, probes: [...probes], by, startedAt: formatTime(bench.startedAt), state },
    ...{ endedAt: formatKnownTime(bench.endedAt), reason, calibrations: [...calibrations] },
    finishedProbes: [...(bench.finishedProbes ?? [])],
    points: bench.points.map(({ startedAt, captured, ...point }) => ({
      ...point,
      startedAt: formatTime(startedAt),
      captured: captured.map(({ at, from, to, ...rest }) => ({
        ...rest,
        ...{ at: formatTime(at), from: formatTime(from), to: formatTime(to) },
      })),
    })),
    settling: settling.map((one) => settlingAnswer(one, UNIT[quantity])),
    cautions: [...cautions],
    warnings: [...warnings],
  };
}

function settlingAnswer(one: BenchView['settling'][number], unit: string): BenchAnswer['settling'][number] {
  const { probe, captured, settled, reason, remaining_s, window, shown, trace } = one;
  return {
    ...{ probe, captured, settled, words: waitingWords(one, unit), reason },
    remaining_s: remaining_s ?? null,
    latest: shown?.latest.value ?? null,
    latestAt: formatKnownTime(shown?.latest.time ?? null),
    mean: window?.mean ?? null,
    scatter: window?.scatter ?? null,
    slope_perMinute: window?.slopePerMinute ?? null,
    readings: shown?.count ?? 0,
    trace: trace.map(({ time, value }) => ({ at: formatTime(time), value })),
  };
}

export const benchPathSchema = z.strictObject({ bench: z.string().min(1).max(64) });

export const benchQuerySchema = z.strictObject({
  site: idSchema.optional(),
  state: z.enum(BENCH_STATES).optional(),
  limit: countQuerySchema(1, HTTP_LIMITS.calibrations.most).prefault(HTTP_LIMITS.calibrations.usual),
});

/** A fixed point that a bench can be set up with. */
export const saltSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    formula: z.string(),
    at25_C: z
      .object({
        humidity_RH: z.number(),
        standardUncertainty_RH: z.number().meta({ description: 'k = 1, as published' }),
      })
      .meta({ description: 'Over it in a closed jar at 25 °C' }),
    cautions: z.array(z.string()),
  })
  .meta({ id: 'Salt' });

export type SaltAnswer = z.output<typeof saltSchema>;
