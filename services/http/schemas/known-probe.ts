/** Described probes in answers. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { KnownProbeView } from '../ports.js';
import { countQuerySchema } from './query.js';
import { formatKnownTime, timeTextSchema } from './time.js';

export const probesQuerySchema = z.strictObject({
  site: idSchema.optional(),
  bed: idSchema.optional(),
  limit: countQuerySchema(1, HTTP_LIMITS.probes.most).prefault(HTTP_LIMITS.probes.usual),
  after: z.string().min(1).max(65).optional(),
});

const standsSchema = z
  .object({
    bed: z.string().optional(),
    x: z.number().optional(),
    y: z.number().optional(),
    depth: z.number().optional(),
    ambient: z.literal(true).optional(),
  })
  .meta({ description: 'A point of a bed in cm, or the shade outside' });

const calibrationSchema = z.object({
  quantity: z.enum(['temperature', 'humidity']),
  calibration: z.string().nullable().meta({ description: 'Id of the one in force' }),
  dueAt: timeTextSchema.nullable(),
  isDue: z.boolean(),
});

export const knownProbeSchema = z
  .object({
    site: z.string(),
    id: z.string(),
    model: z.string().nullable(),
    version: z.number().int().meta({ description: 'What the ETag of its description says' }),
    stands: standsSchema.nullable().meta({ description: 'null where it stands nowhere now' }),
    since: timeTextSchema.nullable(),
    placements: z.number().int(),
    online: z.boolean().nullable(),
    lastHeardAt: timeTextSchema.nullable().meta({ description: 'Event time of its newest reading' }),
    battery_V: z.number().nullable(),
    charge_EL: z.number().nullable(),
    onBenchSince: timeTextSchema.nullable(),
    calibrations: z.array(calibrationSchema),
  })
  .meta({ id: 'KnownProbe' });

export function knownProbeAnswer(view: KnownProbeView): z.output<typeof knownProbeSchema> {
  const { stands, since, lastHeardAt, onBenchSince, calibrations, ...rest } = view;
  return {
    ...{ ...rest, stands: stands && { ...stands } },
    since: formatKnownTime(since),
    lastHeardAt: formatKnownTime(lastHeardAt),
    onBenchSince: formatKnownTime(onBenchSince),
    calibrations: calibrations.map(({ dueAt, ...one }) => ({
      ...one,
      dueAt: dueAt === null ? null : formatTime(dueAt),
    })),
  };
}
