/** A trial: beds with treatments, and the one number of each by which they are compared. Never changed: what corrects it supersedes it. */
import { z } from 'zod';
import { idSchema } from './id.js';
import type { Problem } from './site.js';
import { timeSchema } from './time.js';
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

/** The body of `POST /api/trials/{trial}/assignment`. */
export const assignmentBodySchema = z
  .strictObject({ id: uuid.optional(), at: timeSchema, by: whoSchema, seed: seed.optional() })
  .readonly();
export type AssignmentBody = z.output<typeof assignmentBodySchema>;

/** How treatments came to beds: drawn, with what they can be drawn again by; or given by hand. */
export type Assignment =
  | { readonly how: 'chance'; readonly seed: number; readonly at: number; readonly by: string }
  | { readonly how: 'hand' };

/** One version of a trial, as it is kept. */
export interface Trial extends Omit<TrialBody, 'id'> {
  readonly id: string;
  /** Null while no bed has a treatment. */
  readonly assigned: Assignment | null;
}

type Checked = Pick<TrialBody, 'from' | 'to' | 'design' | 'treatments' | 'beds' | 'supersedes' | 'reason'>;

/** What in a trial does not hold together, each as a key and a sentence; none where all does. */
export function trialProblems(body: Checked): Problem[] {
  return [...spanProblems(body), ...twiceProblems(body), ...bedProblems(body), ...reasonProblems(body)];
}

const spanProblems = ({ from, to }: Checked): Problem[] =>
  to === undefined || to > from ? [] : [{ path: ['to'], message: 'expected a time after from' }];

function twiceProblems({ treatments, beds }: Checked): Problem[] {
  const ids = beds.map(({ bed }) => bed);
  return [
    ...repeated(treatments).map((at) => ({
      path: ['treatments', at],
      message: `expected each treatment once, got ${JSON.stringify(treatments[at])} again`,
    })),
    ...repeated(ids).map((at) => ({
      path: ['beds', at, 'bed'],
      message: `expected each bed once, got "${ids[at]}" again`,
    })),
  ];
}

const repeated = (items: readonly string[]): number[] =>
  items.flatMap((item, at) => (items.indexOf(item) === at ? [] : [at]));

function bedProblems({ design, treatments, beds }: Checked): Problem[] {
  const given = beds.some(({ treatment }) => treatment !== undefined);
  return beds.flatMap(({ block, treatment }, at): Problem[] => [
    ...((block === undefined) === (design === 'complete')
      ? []
      : [
          {
            path: ['beds', at, 'block'],
            message:
              design === 'blocks'
                ? 'expected the block of each bed, as the design is blocks, got nothing'
                : `expected no block, as the design is complete, got ${JSON.stringify(block)}`,
          },
        ]),
    ...(given && treatment === undefined
      ? [
          {
            path: ['beds', at, 'treatment'],
            message: 'expected a treatment of every bed, or of none, to be drawn',
          },
        ]
      : []),
    ...(treatment !== undefined && !treatments.includes(treatment)
      ? [
          {
            path: ['beds', at, 'treatment'],
            message: `expected ${treatments.map((one) => JSON.stringify(one)).join(' or ')}, got ${JSON.stringify(treatment)}`,
          },
        ]
      : []),
  ]);
}

const reasonProblems = ({ supersedes, reason }: Checked): Problem[] =>
  (supersedes === undefined) === (reason === undefined)
    ? []
    : [
        {
          path: [supersedes === undefined ? 'supersedes' : 'reason'],
          message: 'expected both what is corrected and why, or neither',
        },
      ];
