/** Calibrations in questions and answers. */
import { z } from 'zod';
import { correctionAt, recordCautions } from '../../core/calibration/index.js';
import {
  CALIBRATED_QUANTITIES,
  CALIBRATION_FORMS,
  POINT_SOURCES,
  STEP_SOURCES,
  WEIGHTINGS,
} from '../../core/model/calibration.js';
import {
  type Calibration,
  calibrationBodySchema,
  fitRequestSchema,
} from '../../core/model/calibration-record.js';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { CalibrationStanding } from '../ports.js';
import { countQuerySchema, yesQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

const number = (description: string) => z.number().meta({ description });

const pointSchema = z
  .object({
    at: timeTextSchema.optional(),
    indicated: number('What the probe showed'),
    indicatedScatter: z.number().optional(),
    indicatedCount: z.number().optional(),
    reference: z.number(),
    referenceUncertainty: number('Standard, k = 1'),
    temperature_C: z.number().optional(),
    source: z.enum(POINT_SOURCES),
    label: z.string().optional(),
  })
  .meta({ description: 'In °C or %RH, as the quantity' });

const referenceSchema = z
  .object({
    name: z.string(),
    serial: z.string().optional(),
    calibratedBy: z.string().optional(),
    certificate: z.string().optional(),
    calibratedOn: z.string().optional(),
    dueOn: z.string().optional(),
    note: z.string().optional(),
  })
  .meta({ description: 'As the technician entered it; nobody has checked it' });

const fitSchema = z
  .object({
    quantity: z.enum(CALIBRATED_QUANTITIES),
    form: z.enum(CALIBRATION_FORMS),
    reason: z.string().meta({ description: 'Why this form' }),
    centre: z.number(),
    coefficients: z.array(z.number()).meta({
      description:
        'y1, y2, y3 of: corrected = indicated + y1 + y2 (indicated - centre) + y3 (indicated - centre)^2',
    }),
    covariance: z.array(z.array(z.number())),
    weighting: z.enum(WEIGHTINGS),
    residualDeviation: z.number().optional(),
    degreesOfFreedom: z.number(),
    birgeRatio: z.number().optional(),
    commonUncertainty: number('Standard uncertainty that all references share'),
    resolution: z.number().optional(),
    resolutionFrom: z.enum(STEP_SOURCES).optional().meta({
      description:
        'given; seen: the readings show it; usual: they show none, and that of a usual sensor is taken',
    }),
    repeatability: z.number().optional(),
    range: z
      .array(z.number())
      .meta({ description: 'Lowest and highest indicated value: beyond it a value is marked' }),
    residuals: z.array(
      z.object({ index: z.number(), residual: z.number(), standardised: z.number().optional() }),
    ),
    outliers: z.array(
      z.object({ index: z.number(), residual: z.number(), standardised: z.number(), bound: z.number() }),
    ),
    leftOut: z.array(z.object({ index: z.number(), reason: z.string(), residual: z.number() })),
  })
  .meta({ id: 'CalibrationFit', description: 'Form of JCGM 100:2008 H.3; uncertainties are standard ones' });

/** A calibration in an answer. */
export const calibrationSchema = z
  .object({
    id: z.string(),
    site: z.string(),
    probe: z.string(),
    quantity: z.enum(CALIBRATED_QUANTITIES),
    from: timeTextSchema.meta({ description: 'Event time from which it holds' }),
    doneAt: timeTextSchema,
    by: z.string(),
    reference: referenceSchema,
    conditions: z.object({
      temperature_C: z.number().optional(),
      humidity_RH: z.number().optional(),
      pressure_hPa: z.number().optional(),
      note: z.string().optional(),
    }),
    points: z.array(pointSchema),
    fit: fitSchema,
    asFound: z
      .object({
        largest: number('Corrected by the calibration before, less reference'),
        standardUncertainty: z.number(),
        indicated: z.number(),
        tolerance: z.number(),
        exceeds: z.boolean(),
        certain: z.boolean(),
      })
      .meta({ description: 'The largest error before anything was done to it' }),
    change: z
      .object({ change: z.number(), standardUncertainty: z.number(), indicated: z.number() })
      .optional()
      .meta({ description: 'Greatest change of the correction since the calibration before' }),
    uncertainty: z
      .object({ indicated: z.number(), expanded: number('k = 2, with all that is known of it') })
      .meta({ description: 'Of one corrected reading at the middle of the range' }),
    cautions: z.array(z.string()).meta({ description: 'What is to be said beside the numbers' }),
    before: z.string().nullable(),
    supersedes: z.string().nullable(),
    bench: z.string().nullable(),
    inForce: z.boolean().meta({ description: 'Now' }),
    supersededBy: z.string().nullable(),
  })
  .meta({ id: 'Calibration', description: 'Kept for ever: a later one takes over from its own time on' });

export type CalibrationAnswer = z.output<typeof calibrationSchema>;

export function calibrationAnswer(record: Calibration, standing: CalibrationStanding): CalibrationAnswer {
  const { from, doneAt, points, fit, ...rest } = record;
  return {
    ...rest,
    ...{ from: formatTime(from), doneAt: formatTime(doneAt), ...standing },
    uncertainty: uncertaintyOf(fit),
    cautions: recordCautions(record),
    points: points.map(({ at, ...point }) => ({ ...point, ...(at !== undefined && { at: formatTime(at) }) })),
    fit: {
      ...fit,
      coefficients: [...fit.coefficients],
      covariance: fit.covariance.map((row) => [...row]),
      range: [...fit.range],
      residuals: [...fit.residuals],
      outliers: [...fit.outliers],
      leftOut: [...fit.leftOut],
    },
  };
}

function uncertaintyOf(fit: Calibration['fit']): CalibrationAnswer['uncertainty'] {
  const [low, high] = fit.range;
  const indicated = (low + high) / 2;
  return { indicated, expanded: correctionAt(fit, indicated).expandedUncertainty };
}

export const calibrationPathSchema = z.strictObject({ id: z.string().min(1).max(64) });

const limitSchema = countQuerySchema(1, HTTP_LIMITS.calibrations.most).prefault(
  HTTP_LIMITS.calibrations.usual,
);

export const calibrationQuerySchema = z.strictObject({
  site: idSchema.optional(),
  probe: idSchema.optional(),
  quantity: z.enum(CALIBRATED_QUANTITIES).optional(),
  inForce: yesQuerySchema.optional().meta({ description: 'true: only those in force now' }),
  limit: limitSchema,
});

export const fieldCheckQuerySchema = z.strictObject({
  site: idSchema.optional(),
  probe: idSchema.optional(),
  limit: limitSchema,
});

const { probe, quantity, points: _, ...shared } = calibrationBodySchema.shape;

/** The body of `POST /api/calibrations/pairs`. */
export const pairsBodySchema = z.strictObject({
  ...shared,
  fit: fitRequestSchema.default({}),
  csv: z.string().min(1).max(HTTP_LIMITS.csv_characters),
  probe: probe.optional(),
  quantity: quantity.optional(),
  uncertainty: z.number().positive().max(100).optional(),
  leaveOut: z
    .array(
      z.strictObject({
        line: z.int().positive().meta({ description: 'Of the file, from 1 with its header' }),
        probe: probe.optional().meta({ description: 'Refused where the line is of another' }),
        reason: z.string().trim().min(1).max(500),
      }),
    )
    .max(1000)
    .optional(),
  dryRun: z.boolean().default(false),
});

export const pairsSchema = z
  .object({
    badLines: z.array(z.object({ line: z.number(), message: z.string() })).meta({
      description: 'Lines that were not understood: while there are any, nothing is kept',
    }),
    calibrations: z.array(calibrationSchema),
    kept: z.boolean(),
  })
  .meta({ id: 'Pairs' });

export const dueSchema = z
  .object({
    site: z.string(),
    probe: z.string(),
    quantity: z.enum(CALIBRATED_QUANTITIES),
    calibration: z.string().nullable(),
    dueAt: timeTextSchema.nullable(),
    isDue: z.boolean(),
  })
  .meta({ id: 'CalibrationDue', description: 'A probe that never was calibrated has none due' });

export type PairsAnswer = z.output<typeof pairsSchema>;
export type DueAnswer = z.output<typeof dueSchema>;
