/**
 * Bench work: one technician holds several probes beside one reference, point after point, and calibrates them all.
 *
 * A point is a bath or jar of known value from the time at which it began; a probe is captured at it once it rests.
 */
import { z } from 'zod';
import {
  CALIBRATED_QUANTITIES,
  type CalibratedQuantity,
  type PointSource,
  type StepSource,
} from './calibration.js';
import {
  type Conditions,
  conditionsSchema,
  fitRequestSchema,
  type Reference,
  referenceSchema,
} from './calibration-record.js';
import { idSchema } from './id.js';
import { timeSchema } from './time.js';
import { whoSchema } from './who.js';

/** As many as a technician handles in a day, and as one message can name. */
const PROBES_MOST = 60;

/** Salts of known humidity; what is known of them is in `calibration/salts.ts`. */
export const SALT_IDS = [
  'lithium-chloride',
  'magnesium-chloride',
  'potassium-carbonate',
  'magnesium-nitrate',
  'sodium-bromide',
  'sodium-chloride',
  'potassium-chloride',
  'potassium-nitrate',
  'potassium-sulfate',
] as const;

export type SaltId = (typeof SALT_IDS)[number];

/** Units of a reference, as SenML writes them. */
export const REFERENCE_UNITS = ['Cel', 'K', '%RH', '/'] as const;

/** In words that are kept for good. */
const reasonSchema = z.string().trim().min(1).max(500);

const probesSchema = z
  .array(idSchema)
  .min(1)
  .max(PROBES_MOST)
  .refine((probes) => new Set(probes).size === probes.length, { message: 'expected each probe once' })
  .readonly();

/** The body of `POST /api/bench`. */
export const benchBodySchema = z
  .strictObject({
    site: idSchema,
    probes: probesSchema,
    quantity: z.enum(CALIBRATED_QUANTITIES),
    by: whoSchema,
    reference: referenceSchema,
    conditions: conditionsSchema.default({}),
  })
  .readonly();
export type BenchBody = z.output<typeof benchBodySchema>;

/** A better thermometer or hygrometer beside the probes, in the unit given, or the one stored where none is. */
const besideInstrumentSchema = z.strictObject({
  source: z.literal('instrument'),
  reference: z.number(),
  /** Standard, k = 1, in the unit of the reference. */
  uncertainty: z.number().positive(),
  unit: z.enum(REFERENCE_UNITS).optional(),
  /** Of the chamber; of a humidity only. */
  temperature_C: z.number().min(-40).max(60).optional(),
});

const icePointSchema = z.strictObject({
  source: z.literal('ice-point'),
  /** °C, k = 1; the usual one of a stirred flask where absent. */
  uncertainty: z.number().positive().optional(),
});

const boilingPointSchema = z.strictObject({
  source: z.literal('boiling-point'),
  /** At the place, not reduced to sea level. */
  pressure_hPa: z.number(),
  /** k = 1. */
  pressureUncertainty_hPa: z.number().nonnegative(),
});

const saltPointSchema = z.strictObject({
  source: z.literal('salt'),
  salt: z.enum(SALT_IDS),
  /** Of the jar. */
  temperature_C: z.number(),
  /** k = 1. */
  temperatureUncertainty_C: z.number().nonnegative(),
  /** The most that a probe may be warmer or colder than the salt. */
  probeDifference_C: z.number().nonnegative().optional(),
});

/** The body of `POST /api/bench/{id}/points`. Ranges are checked where the value of the point is worked out. */
export const benchPointBodySchema = z
  .discriminatedUnion('source', [besideInstrumentSchema, icePointSchema, boilingPointSchema, saltPointSchema])
  .readonly();
export type BenchPointBody = z.output<typeof benchPointBodySchema>;

/** The body of `POST /api/bench/{id}/capture`; all probes that still wait where none are named. */
export const captureBodySchema = z.strictObject({ probes: probesSchema.optional() }).readonly();
export type CaptureBody = z.output<typeof captureBodySchema>;

/** The body of the request that takes the current point back: there is nothing to say. */
export const dropPointBodySchema = z.strictObject({});

/** The body of the request that gives bench work up. */
export const closeBodySchema = z.strictObject({ reason: reasonSchema }).readonly();
export type CloseBody = z.output<typeof closeBodySchema>;

/** A capture that is not to be fitted, by its probe and the number of its point. */
const leftOutSchema = z
  .strictObject({ probe: idSchema, point: z.int().positive(), reason: reasonSchema })
  .readonly();

const benchFitSchema = z
  .strictObject({
    ...fitRequestSchema.unwrap().shape,
    leaveOut: z
      .array(leftOutSchema)
      .max(1000)
      .refine((left) => new Set(left.map(({ probe, point }) => `${probe} ${point}`)).size === left.length, {
        message: 'expected each point of a probe once',
      })
      .readonly()
      .optional(),
  })
  .readonly();

/** The calibration of a probe that the new one stands in the place of. */
const supersedesSchema = z
  .strictObject({ probe: idSchema, calibration: z.string().min(1).max(64) })
  .readonly();

/**
 * The body of the request that makes calibrations of what was captured, of all probes that are not finished yet where
 * none are named.
 */
export const finishBodySchema = z
  .strictObject({
    /** Event time from which they hold; the time at which the work was done where absent. */
    from: timeSchema.optional(),
    fit: benchFitSchema.default({}),
    probes: probesSchema.optional(),
    supersedes: z
      .array(supersedesSchema)
      .max(PROBES_MOST)
      .refine((all) => new Set(all.map(({ probe }) => probe)).size === all.length, {
        message: 'expected each probe once',
      })
      .readonly()
      .optional(),
    /** End the bench, and leave out what has not been finished by then. */
    close: z.boolean().optional(),
  })
  .readonly();
export type FinishBody = z.output<typeof finishBodySchema>;

/** Pairs from a file never stood on a bench. */
export type BenchPointSource = Exclude<PointSource, 'file'>;

/** What a probe showed at a point, once it rested; °C or %RH. */
export interface Capture {
  readonly probe: string;
  /** When it was captured, ms. */
  readonly at: number;
  /** Event times of the first and last reading that it is the mean of, ms. */
  readonly from: number;
  readonly to: number;
  readonly indicated: number;
  /** Standard deviation of single readings. */
  readonly scatter: number;
  readonly count: number;
  /** k = 1: of `indicated` as what the probe would show at rest. */
  readonly uncertainty: number;
  /** Step in which it told its values, and how that is known; absent in work that was kept before steps were. */
  readonly step?: number;
  readonly stepFrom?: StepSource;
}

/** A bath or jar of known value; °C or %RH, k = 1. */
export interface BenchPoint {
  /** From 1. */
  readonly number: number;
  readonly startedAt: number;
  readonly source: BenchPointSource;
  readonly reference: number;
  readonly referenceUncertainty: number;
  /** Of a salt point. */
  readonly salt?: SaltId;
  /** Of a humidity: that of the jar or chamber. */
  readonly temperature_C?: number;
  /** What it was, in a few words. */
  readonly label: string;
  /** What its value and uncertainty rest on. */
  readonly basis: string;
  /** Each probe at most once. */
  readonly captured: readonly Capture[];
  /** The point after it was begun and dropped: the probes may be elsewhere, so that it takes no more captures. */
  readonly isOver?: boolean;
}

export const BENCH_STATES = ['open', 'finished', 'given-up'] as const;
export type BenchState = (typeof BENCH_STATES)[number];

export interface Bench {
  readonly id: string;
  readonly site: string;
  readonly quantity: CalibratedQuantity;
  readonly probes: readonly string[];
  readonly by: string;
  readonly startedAt: number;
  readonly reference: Reference;
  readonly conditions: Conditions;
  /** In order of time. */
  readonly points: readonly BenchPoint[];
  readonly state: BenchState;
  /** ms; null while it is open. */
  readonly endedAt: number | null;
  /** Why it was given up; null else. */
  readonly reason: string | null;
  /** Ids of the calibrations that came of it. */
  readonly calibrations: readonly string[];
  /** Their probes, in the same order; absent in work that was kept before probes were finished one by one. */
  readonly finishedProbes?: readonly string[];
}
