/** Bench work in answers. */
import { z } from 'zod';
import { waitingWords } from '../../core/calibration/index.js';
import { BENCH_STATES } from '../../core/model/bench.js';
import { CALIBRATED_QUANTITIES, POINT_SOURCES } from '../../core/model/calibration.js';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { BenchView } from '../ports.js';
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
  mean: z.number().nullable(),
  scatter: z.number().nullable(),
  slope_perMinute: z.number().nullable(),
  readings: z.number(),
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
    cautions: z.array(z.string()).meta({ description: 'Of what stands on the bench now' }),
    calibrations: z.array(z.string()),
  })
  .meta({ id: 'Bench', description: 'Probes that are calibrated together' });

export type BenchAnswer = z.output<typeof benchSchema>;

export function benchAnswer({ bench, settling, cautions }: BenchView): BenchAnswer {
  const { id, site, quantity, probes, by, state, reason, calibrations } = bench;
  return {
    ...{ id, site, quantity, probes: [...probes], by, startedAt: formatTime(bench.startedAt), state },
    ...{ endedAt: formatKnownTime(bench.endedAt), reason, calibrations: [...calibrations] },
    points: bench.points.map(({ startedAt, captured, ...point }) => ({
      ...point,
      startedAt: formatTime(startedAt),
      captured: captured.map(({ at, from, to, ...rest }) => ({
        ...rest,
        ...{ at: formatTime(at), from: formatTime(from), to: formatTime(to) },
      })),
    })),
    settling: settling.map(settlingAnswer),
    cautions: [...cautions],
  };
}

function settlingAnswer(one: BenchView['settling'][number]): BenchAnswer['settling'][number] {
  const { probe, captured, settled, reason, remaining_s, window } = one;
  return {
    ...{ probe, captured, settled, words: waitingWords(one), reason, remaining_s: remaining_s ?? null },
    mean: window?.mean ?? null,
    scatter: window?.scatter ?? null,
    slope_perMinute: window?.slopePerMinute ?? null,
    readings: window?.count ?? 0,
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
  .object({ id: z.string(), name: z.string(), formula: z.string(), cautions: z.array(z.string()) })
  .meta({ id: 'Salt' });

export type SaltAnswer = z.output<typeof saltSchema>;
