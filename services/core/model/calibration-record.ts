/**
 * A calibration as it is kept: what was done, by whom, with which reference, what came of it, and from when on it holds.
 *
 * A record is never changed: a later one of the same probe and quantity takes over from its own time on, and one that
 * names an earlier record stands in its place as if that had never been.
 */
import { z } from 'zod';
import {
  CALIBRATED_QUANTITIES,
  CALIBRATION_FORMS,
  type CalibratedQuantity,
  type CalibrationFit,
  type CalibrationPoint,
  calibrationPointSchema,
  WEIGHTINGS,
} from './calibration.js';
import { idSchema } from './id.js';
import { timeSchema } from './time.js';

const text = (most: number) => z.string().trim().min(1).max(most);

/** What the probe was held against, and its traceability as it was entered: nobody has checked these words. */
export const referenceSchema = z
  .strictObject({
    name: text(200),
    serial: text(100).optional(),
    /** Who calibrated it, by which certificate, and when. */
    calibratedBy: text(200).optional(),
    certificate: text(200).optional(),
    calibratedOn: z.iso.date().optional(),
    dueOn: z.iso.date().optional(),
    note: text(1000).optional(),
  })
  .readonly();
export type Reference = z.output<typeof referenceSchema>;

/** Where it was done. */
export const conditionsSchema = z
  .strictObject({
    temperature_C: z.number().min(-40).max(60).optional(),
    humidity_RH: z.number().min(0).max(100).optional(),
    pressure_hPa: z.number().min(500).max(1100).optional(),
    note: text(1000).optional(),
  })
  .readonly();
export type Conditions = z.output<typeof conditionsSchema>;

/** How the correction is to be fitted; everything has a usual value. */
export const fitRequestSchema = z
  .strictObject({
    form: z.enum(CALIBRATION_FORMS).optional(),
    weighting: z.enum(WEIGHTINGS).optional(),
    /** Step in which the probe tells its values. */
    resolution: z.number().positive().max(10).optional(),
    leaveOut: z
      .array(z.strictObject({ index: z.int().nonnegative(), reason: text(500) }))
      .max(1000)
      .optional(),
  })
  .readonly();
export type FitRequest = z.output<typeof fitRequestSchema>;

/** The body of `POST /api/calibrations`: points that were measured elsewhere. */
export const calibrationBodySchema = z.strictObject({
  site: idSchema,
  probe: idSchema,
  quantity: z.enum(CALIBRATED_QUANTITIES),
  /** Event time from which it holds; the time at which it was done where absent. */
  from: timeSchema.optional(),
  doneAt: timeSchema,
  by: text(100),
  reference: referenceSchema,
  conditions: conditionsSchema.default({}),
  points: z.array(calibrationPointSchema).min(1).max(1000),
  fit: fitRequestSchema.default({}),
  /** A record that this one stands in the place of. */
  supersedes: z.string().min(1).max(64).optional(),
});
export type CalibrationBody = z.output<typeof calibrationBodySchema>;

/** Error of the probe before anything was done to it, by the calibration in force until then. */
export interface AsFoundRecord {
  /** Corrected value less reference, of the greatest size; °C or %RH. */
  readonly largest: number;
  readonly standardUncertainty: number;
  /** Where that was: what the probe showed. */
  readonly indicated: number;
  readonly tolerance: number;
  readonly exceeds: boolean;
  /** Whether measuring again would say the same: the distance from the tolerance is above its uncertainty (k = 2). */
  readonly certain: boolean;
}

/** Greatest change of the correction since the calibration before; °C or %RH. */
export interface ChangeRecord {
  readonly change: number;
  readonly standardUncertainty: number;
  readonly indicated: number;
}

export interface Calibration {
  readonly id: string;
  readonly site: string;
  readonly probe: string;
  readonly quantity: CalibratedQuantity;
  /** Event time from which it holds, ms. */
  readonly from: number;
  /** When it was done, ms. */
  readonly doneAt: number;
  readonly by: string;
  readonly reference: Reference;
  readonly conditions: Conditions;
  readonly points: readonly CalibrationPoint[];
  readonly fit: CalibrationFit;
  readonly asFound: AsFoundRecord;
  /** Absent for the first, and where the two have no range in common. */
  readonly change?: ChangeRecord;
  /** The record in force before it; null where there was none. */
  readonly before: string | null;
  /** The record that it stands in the place of. */
  readonly supersedes: string | null;
  /** The bench work that it came from. */
  readonly bench: string | null;
}
