/** A trial: beds with treatments, and the one number of each by which they are compared. Never changed: what corrects it supersedes it. */
import { z } from 'zod';
import { idSchema } from './id.js';
import { timeSchema } from './time.js';
import { trialProblems } from './trial-problems.js';
import { whoSchema } from './who.js';

/** What stands for a bed. */
export const OUTCOMES = ['loss', 'first-rot', 'sound-mass', 'highest-excess', 'sprouted'] as const;
export type OutcomeKind = (typeof OUTCOMES)[number];

export const TRIAL_DESIGNS = ['complete', 'blocks'] as const;
export type TrialDesign = (typeof TRIAL_DESIGNS)[number];

/** Bounds of one trial; seeds are of up to nine digits. */
export const TRIAL_LIMITS = { beds: 500, treatments: 20, days: 400, seed: 999_999_999 } as const;

const label = z.string().trim().min(1).max(60);
const text = z.string().trim().min(1).max(2000);
const uuid = z.uuid('expected a UUID').toLowerCase();

const trialBedSchema = z
  .strictObject({ bed: idSchema, block: label.optional(), treatment: label.optional() })
  .readonly();
export type TrialBed = z.output<typeof trialBedSchema>;

const outcomeSchema = z
  .strictObject({
    kind: z.enum(OUTCOMES),
    /** Days from the filling of each bed. */
    day: z.number().int().min(1).max(TRIAL_LIMITS.days),
  })
  .readonly();
export type Outcome = z.output<typeof outcomeSchema>;

const seed = z.number().int().min(0).max(TRIAL_LIMITS.seed);

/** The body of `POST /api/trials`. */
export const trialBodySchema = z
  .strictObject({
    /** Of this version, given by the device that it was written on, so that what is sent twice is kept once. */
    id: uuid.optional(),
    /** By which the trial is known. */
    trial: idSchema,
    name: z.string().trim().min(1).max(100),
    question: text.optional(),
    ...{ at: timeSchema, by: whoSchema },
    /** When its treatments begin, and end; for good where it has no end. */
    ...{ from: timeSchema, to: timeSchema.optional() },
    design: z.enum(TRIAL_DESIGNS),
    treatments: z.array(label).min(2).max(TRIAL_LIMITS.treatments).readonly(),
    /** What is done to the beds of a treatment, by its name. */
    described: z.record(label, text).optional(),
    beds: z.array(trialBedSchema).min(2).max(TRIAL_LIMITS.beds).readonly(),
    outcome: outcomeSchema,
    note: text.optional(),
    /** The version that it corrects, and why. */
    supersedes: uuid.optional(),
    reason: text.optional(),
  })
  .superRefine((body, context) => {
    for (const { path, message } of trialProblems(body)) context.addIssue({ code: 'custom', path, message });
  });
export type TrialBody = z.output<typeof trialBodySchema>;

const head = { id: uuid.optional(), at: timeSchema, by: whoSchema };

/** The body of `POST /api/trials/{trial}/draw`. */
export const drawBodySchema = z.strictObject(head).readonly();
export type DrawBody = z.output<typeof drawBodySchema>;

/** The body of `POST /api/trials/{trial}/assignment`. */
export const assignmentBodySchema = z.strictObject({ ...head, seed: seed.optional() }).readonly();
export type AssignmentBody = z.output<typeof assignmentBodySchema>;

const chance = z.number().min(0).max(1);

/** The body of `POST /api/trial-power`. */
export const powerBodySchema = z
  .strictObject({
    design: z.enum(TRIAL_DESIGNS).default('complete'),
    treatments: z.number().int().min(2).max(TRIAL_LIMITS.treatments).default(2),
    difference: z.number().min(1e-9).max(1e9).meta({
      description: 'Worth having, between the two treatments that differ most, in the unit of the outcome',
    }),
    sd: z.number().min(1e-9).max(1e9).meta({
      description: 'How beds of one treatment scatter, standard deviation, in the same unit',
    }),
    alpha: chance.min(1e-6).max(0.5).default(0.05).meta({ description: 'Chance to cry wolf' }),
    power: chance.min(0.5).max(0.999).optional().meta({
      description: 'Chance to find the difference where it is there; 0.8 where neither it nor beds is given',
    }),
    beds: z.number().int().min(2).max(10_000).optional().meta({
      description: 'Instead: what so many beds of each treatment would find',
    }),
  })
  .refine(({ power, beds }) => power === undefined || beds === undefined, {
    path: ['beds'],
    message: 'expected power or beds, got both',
  });
export type PowerBody = z.output<typeof powerBodySchema>;

/** What came out by chance and was shown before it is in force: kept with its trial, so that nobody draws until it pleases. */
export interface Draw {
  readonly seed: number;
  /** ms. */
  readonly at: number;
  readonly by: string;
  readonly beds: readonly TrialBed[];
}

/** How treatments came to beds: drawn, with what they can be drawn again by; or given by hand. */
export type Assignment =
  | { readonly how: 'chance'; readonly seed: number; readonly at: number; readonly by: string }
  | { readonly how: 'hand' };

/** One version of a trial, as it is kept. */
export interface Trial extends Omit<TrialBody, 'id'> {
  readonly id: string;
  /** Null while no bed has a treatment. */
  readonly assigned: Assignment | null;
  /** Not in force yet; no other is drawn while it stands. */
  readonly drawn?: Draw;
}
