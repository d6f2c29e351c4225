/**
 * What a calibration of a probe is made from, and what is kept of it: points, and the fitted correction.
 *
 * Everything is in the unit stored for the quantity (°C, %RH); uncertainties are standard uncertainties (k = 1) in
 * the same unit.
 */
import { z } from 'zod';

export const CALIBRATED_QUANTITIES = ['temperature', 'humidity'] as const;
export type CalibratedQuantity = (typeof CALIBRATED_QUANTITIES)[number];

/**
 * - `instrument` a better thermometer or hygrometer beside the probe
 * - `ice-point`, `boiling-point`, `salt` fixed points, made anew each time
 * - `file` pairs that were measured elsewhere
 */
export const POINT_SOURCES = ['instrument', 'ice-point', 'boiling-point', 'salt', 'file'] as const;
export type PointSource = (typeof POINT_SOURCES)[number];

export const calibrationPointSchema = z
  .strictObject({
    /** Event time, ms; pairs from a file may have none. */
    at: z.int().optional(),
    /** What the probe showed: one reading, or the mean of several. */
    indicated: z.number(),
    /** Standard deviation of its single readings. */
    indicatedScatter: z.number().nonnegative().optional(),
    /** Readings that `indicated` is the mean of. */
    indicatedCount: z.int().positive().optional(),
    reference: z.number(),
    referenceUncertainty: z.number().positive(),
    /** Of the bath or chamber: a humidity holds at a temperature. */
    temperature_C: z.number().optional(),
    source: z.enum(POINT_SOURCES),
    label: z.string().trim().min(1).max(100).optional(),
  })
  .readonly();

export type CalibrationPoint = z.output<typeof calibrationPointSchema>;

/** Forms of the correction, each with one coefficient more than the one before it. */
export const CALIBRATION_FORMS = ['offset', 'linear', 'quadratic'] as const;
export type CalibrationForm = (typeof CALIBRATION_FORMS)[number];

/**
 * - `ordinary` every point counts alike, and their scatter about the curve tells how uncertain it is
 * - `weighted` each point counts by its own known uncertainty
 */
export const WEIGHTINGS = ['ordinary', 'weighted'] as const;
export type Weighting = (typeof WEIGHTINGS)[number];

/**
 * Where the step of a probe's values is known from.
 * - `given` somebody said it
 * - `seen` its readings show it
 * - `usual` they show none: that of a usual sensor is taken
 */
export const STEP_SOURCES = ['given', 'seen', 'usual'] as const;
export type StepSource = (typeof STEP_SOURCES)[number];

const index = z.int().nonnegative();
const uncertainty = z.number().nonnegative();

const pointResidualSchema = z
  .strictObject({
    index,
    /** Correction measured less correction fitted. */
    residual: z.number(),
    /** In its own standard deviations; absent where the fit passes through the point whatever it says. */
    standardised: z.number().optional(),
  })
  .readonly();

const outlierSchema = z
  .strictObject({
    index,
    residual: z.number(),
    standardised: z.number(),
    /** Size of `standardised` that it is above. */
    bound: z.number().positive(),
  })
  .readonly();

const leftOutSchema = z
  .strictObject({ index, reason: z.string().trim().min(1).max(500), residual: z.number() })
  .readonly();

/**
 * A fitted correction as it is stored: corrected = indicated + y1 + y2 (indicated - centre) +
 * y3 (indicated - centre)^2, form of JCGM 100:2008 H.3.
 */
export const calibrationFitSchema = z
  .strictObject({
    quantity: z.enum(CALIBRATED_QUANTITIES),
    form: z.enum(CALIBRATION_FORMS),
    /** Why this form, in one sentence. */
    reason: z.string().min(1),
    centre: z.number(),
    /** y1, y2, y3, as many as the form has. */
    coefficients: z.array(z.number()).min(1).max(3).readonly(),
    /** Of the coefficients, by rows. */
    covariance: z.array(z.array(z.number()).readonly()).min(1).max(3).readonly(),
    weighting: z.enum(WEIGHTINGS),
    /** Of the points about the curve; absent where there are no more points than coefficients. */
    residualDeviation: uncertainty.optional(),
    degreesOfFreedom: index,
    /** Of a weighted fit: scatter of the points over what their uncertainties let expect. Above 1 it has widened `covariance`. */
    birgeRatio: uncertainty.optional(),
    /** What all references share, so that no number of points lessens it. */
    commonUncertainty: uncertainty,
    /** Step in which the probe tells its values, where known. */
    resolution: uncertainty.optional(),
    /** How that is known: it was said, the readings of the bench show it, or a usual one is taken. */
    resolutionFrom: z.enum(STEP_SOURCES).optional(),
    /** Standard deviation of a single reading of the probe, where known. */
    repeatability: uncertainty.optional(),
    /** Lowest and highest indicated value of the points used. */
    range: z.tuple([z.number(), z.number()]).readonly(),
    /** Of the points used; `index` counts all points given, from 0. */
    residuals: z.array(pointResidualSchema).readonly(),
    /** Points used that do not belong to the others. */
    outliers: z.array(outlierSchema).readonly(),
    /** Points given that were left out on purpose. */
    leftOut: z.array(leftOutSchema).readonly(),
  })
  .readonly()
  .refine(({ form, coefficients }) => coefficients.length === CALIBRATION_FORMS.indexOf(form) + 1, {
    path: ['coefficients'],
    message: 'expected one for an offset, two for a linear and three for a quadratic form',
  })
  .refine(({ coefficients, covariance }) => isCovariance(covariance, coefficients.length), {
    path: ['covariance'],
    message: 'expected a square of as many rows as coefficients, symmetric, with no negative variance',
  })
  .refine(({ range: [low, high] }) => low <= high, {
    path: ['range'],
    message: 'expected the lower value first',
  });

export type CalibrationFit = z.output<typeof calibrationFitSchema>;

function isCovariance(rows: readonly (readonly number[])[], size: number): boolean {
  const isRow = (row: readonly number[], at: number): boolean =>
    row.length === size && row.every((value, to) => value === rows[to]?.[at]) && (row[at] ?? -1) >= 0;
  return rows.length === size && rows.every(isRow);
}
