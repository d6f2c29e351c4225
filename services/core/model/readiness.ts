/**
 * What a keeper answers before a bed is filled, and the record of who found the bed ready or had it filled all the
 * same. What is left out was not looked at, which is not the same as "no".
 */
import { z } from 'zod';
import { idSchema } from './id.js';
import { sievingSchema, weighingSchema } from './sand-samples.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms, timeSchema } from './time.js';
import { whoSchema } from './who.js';

/** Roots that must not go into a bed. */
export const BAD_ROOTS = ['cut', 'rotten', 'weevil-tunnelled', 'frozen'] as const;
export type BadRoot = (typeof BAD_ROOTS)[number];

const curingSchema = z
  .strictObject({
    days: z.number().nonnegative().max(365),
    /** Of the air around the roots, where it was measured. */
    temperature_C: z.number().min(-10).max(60).optional(),
    humidity_RH: z.number().min(0).max(100).optional(),
  })
  .readonly();

const nextLookSchema = z.strictObject({ by: whoSchema, at: timeSchema }).readonly();

const yesOrNo = z.boolean().optional();

export const handAnswersSchema = z
  .strictObject({
    curing: curingSchema.optional(),
    woundsHealed: yesOrNo,
    /** Which kinds of bad roots were looked for in every root and taken out. */
    rootsSorted: z
      .array(z.enum(BAD_ROOTS))
      .max(BAD_ROOTS.length)
      .refine((kinds) => new Set(kinds).size === kinds.length, { message: 'expected each kind once' })
      .readonly()
      .optional(),
    rootsCooled: yesOrNo,
    roofOver: yesOrNo,
    /** Of a pit. */
    ditchDug: yesOrNo,
    /** Of a pit: the poles that carry its roof. */
    polesFirm: yesOrNo,
    /** Of a pit: since it was dug, without rain in it. */
    pitOpen_days: z.number().nonnegative().max(3650).optional(),
    sandSieved: yesOrNo,
    sieving: sievingSchema.optional(),
    weighing: weighingSchema.optional(),
    /** A hand's breadth deep in the sand that is to be filled in; asked where no probe lies in sand. */
    sandTemperature_C: z.number().min(-20).max(80).optional(),
    rodentsKeptOut: yesOrNo,
    /** Probes of a pit that lie in sand already; the others lie in the open pit, and in a box all lie in sand. */
    probesInSand: z.array(idSchema).max(100).readonly().optional(),
    nextLook: nextLookSchema.optional(),
  })
  .readonly();
export type HandAnswers = z.output<typeof handAnswersSchema>;

/** Characters of the reason for filling a bed that was not found ready. */
export const OVERRIDE_REASON = { least: 10, most: 500 } as const;

const reasonSchema = z.string().trim().min(OVERRIDE_REASON.least).max(OVERRIDE_REASON.most);

export const overrideSchema = z
  .strictObject({ by: whoSchema, at: timeSchema, reason: reasonSchema })
  .readonly();
export type Override = z.output<typeof overrideSchema>;

/** What a request that judges a bed says. */
export const readinessBodySchema = z
  .strictObject({
    /** Of the record, so that one that is sent again is kept once. */
    id: z.uuid('expected a UUID').toLowerCase().optional(),
    ...{ at: timeSchema, by: whoSchema, answers: handAnswersSchema },
  })
  .readonly();
export type ReadinessBody = z.output<typeof readinessBodySchema>;

export const ITEM_IDS = [
  'curing',
  'wounds-healed',
  'roots-sorted',
  'roots-cooled',
  'roof',
  'ditch',
  'poles',
  'pit-open',
  'pit-dry',
  'pit-steady',
  'sand-grains',
  'sand-moisture',
  'sand-temperature',
  'sand-cooled',
  'sand-steady',
  'sand-humidity',
  'sand-swing',
  'rodents',
  'probes-speaking',
  'probes-calibrated',
  'next-look',
] as const;
export type ItemId = (typeof ITEM_IDS)[number];

export const READINESS_VERDICTS = ['ready', 'not ready', 'unknown'] as const;
export type ReadinessVerdict = (typeof READINESS_VERDICTS)[number];

const storedTime = z.int().min(EARLIEST_TIME_ms).max(LATEST_TIME_ms);

/** As it is kept: times are ms since the epoch. */
const storedOverrideSchema = z
  .strictObject({
    by: whoSchema,
    at: storedTime,
    reason: reasonSchema,
    /** What it was given against. */
    verdict: z.enum(READINESS_VERDICTS).exclude(['ready']),
    points: z.array(z.enum(ITEM_IDS)).min(1).readonly(),
  })
  .readonly();
export type OverrideRecord = z.output<typeof storedOverrideSchema>;

const storedAnswersSchema = handAnswersSchema
  .unwrap()
  .extend({ nextLook: z.strictObject({ by: whoSchema, at: storedTime }).readonly().optional() })
  .readonly();

/** A question as it was answered, with what it was held against. */
const storedItemSchema = z
  .strictObject({
    id: z.enum(ITEM_IDS),
    question: z.string(),
    measure: z.string(),
    limit: z.string(),
    limits: z
      .array(z.strictObject({ name: z.string(), value: z.number(), unit: z.string(), source: z.string() }))
      .readonly(),
    reason: z.string(),
    source: z.string(),
    answeredBy: z.enum(['probe', 'hand']),
    state: z.enum(['met', 'not met', 'unknown']),
  })
  .readonly();

/** What is kept of a judgement; nothing in it is ever changed, an override is added. */
export const readinessRecordSchema = z
  .strictObject({
    id: z.string().min(1).max(64),
    bed: z.string().min(1).max(32),
    at: storedTime,
    by: whoSchema,
    kind: z.enum(['stepped-pit', 'box']),
    /** All that held by then, those of earlier records too. */
    answers: storedAnswersSchema,
    items: z.array(storedItemSchema).readonly(),
    verdict: z.enum(READINESS_VERDICTS),
    /** Items that were not met, and those that were not known. */
    notMet: z.array(z.enum(ITEM_IDS)).readonly(),
    unknown: z.array(z.enum(ITEM_IDS)).readonly(),
    /** In order of time. */
    overrides: z.array(storedOverrideSchema).readonly(),
  })
  .readonly();
export type ReadinessRecord = z.output<typeof readinessRecordSchema>;
