import { z } from 'zod';
import { formatTime } from '../../core/model/time.js';
import { DOUBTS, type ProbeView, type UnknownProbe } from '../ports.js';
import { timeTextSchema } from './time.js';

const known = (description: string) => z.number().nullable().meta({ description });

const doubtSchema = z.enum(DOUBTS).optional().meta({
  description: 'Beyond what was calibrated, or found to have drifted; absent where there is nothing to doubt',
});

const latestSchema = z
  .object({
    at: timeTextSchema,
    temperature_C: z.number().optional(),
    temperatureUncertainty_C: z.number().optional().meta({
      description: 'Expanded uncertainty, k = 2; absent without a calibration in force',
    }),
    temperatureDoubt: doubtSchema,
    humidity_RH: z.number().optional().meta({ description: '%RH' }),
    humidityUncertainty_RH: z.number().optional(),
    humidityDoubt: doubtSchema,
    battery_V: z.number().optional(),
    charge_EL: z.number().optional().meta({ description: 'What is left in the battery, %' }),
  })
  .meta({ description: 'Latest corrected values; a quantity that was not measured is absent' });

/** A probe of a bed in an answer. */
export const probeSchema = z
  .object({
    id: z.string(),
    model: z.string().nullable(),
    x: z.number().meta({ description: 'cm along the length from the north-west corner' }),
    y: z.number().meta({ description: 'cm along the width from the north-west corner' }),
    depth: z.number().meta({ description: 'cm down from the top of the sand' }),
    online: z.boolean().nullable(),
    latest: latestSchema.nullable(),
    expected_C: known('What it would show in a sound bed, °C'),
    band_C: known('Half width of the band in which a sound bed stays, °C'),
    excess_C: known('Measured less expected, °C'),
  })
  .meta({ id: 'Probe' });

export type ProbeAnswer = z.output<typeof probeSchema>;

/** A probe that no site description knows, in an answer. */
export const unknownProbeSchema = z
  .object({
    site: z.string(),
    probe: z.string(),
    readings: z.number().int(),
    firstAt: timeTextSchema,
    lastAt: timeTextSchema,
  })
  .meta({ id: 'UnknownProbe', description: 'A probe that no site description knows; its readings are kept' });

export function probeAnswer(probe: ProbeView): ProbeAnswer {
  const { id, model, x, y, depth, online, latest, expected_C, band_C, excess_C } = probe;
  return {
    id,
    model,
    x,
    y,
    depth,
    online,
    latest: latest && { ...latest, at: formatTime(latest.at) },
    expected_C,
    band_C,
    excess_C,
  };
}

export function unknownProbeAnswer(unknown: UnknownProbe): z.output<typeof unknownProbeSchema> {
  const { site, probe, readings, firstAt, lastAt } = unknown;
  return { site, probe, readings, firstAt: formatTime(firstAt), lastAt: formatTime(lastAt) };
}
