/** What is measured of sand before it is used: sieved, weighed moist and dried, held against the shade. */
import { z } from 'zod';
import { sievingSchema, weighingSchema } from './sand-samples.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms, timeSchema } from './time.js';
import { whoSchema } from './who.js';

const side_cm = z.number().positive().max(500);

/** Warm sand: as a block that was filled in, or spread out. */
export const sandBodyShapeSchema = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('block'), length_cm: side_cm, width_cm: side_cm, height_cm: side_cm }),
  z.strictObject({ shape: z.literal('layer'), thickness_cm: side_cm }),
]);

const warmthSchema = z
  .strictObject({
    sand_C: z.number().min(-20).max(90),
    /** Mean of the shade over a day. */
    shadeMean_C: z.number().min(-20).max(60),
    body: sandBodyShapeSchema,
  })
  .readonly();

const measuredShape = {
  sieving: sievingSchema.optional(),
  weighing: weighingSchema.optional(),
  warmth: warmthSchema.optional(),
};

interface Measured {
  readonly sieving?: unknown;
  readonly weighing?: unknown;
  readonly warmth?: unknown;
}

function checkMeasured({ sieving, weighing, warmth }: Measured, context: Context): void {
  if (sieving === undefined && weighing === undefined && warmth === undefined)
    context.addIssue({ code: 'custom', message: 'expected sieving, weighing or warmth, got none of them' });
}

interface Context {
  addIssue(issue: { code: 'custom'; path?: string[]; message: string }): void;
}

/** Sand by what was measured of it: at least one of the three. */
export const sandMeasuredSchema = z.strictObject(measuredShape).superRefine(checkMeasured).readonly();
export type SandMeasured = z.output<typeof sandMeasuredSchema>;

/** What a request to judge sand says; who and when are of use where it is kept. */
export const sandBodySchema = z
  .strictObject({
    /** Of the record, so that one that is sent again is kept once. */
    id: z.uuid('expected a UUID').toLowerCase().optional(),
    ...measuredShape,
    by: whoSchema.optional(),
    at: timeSchema.optional(),
    note: z.string().trim().max(500).optional(),
  })
  .superRefine(checkMeasured);
export type SandBody = z.output<typeof sandBodySchema>;

/** What is kept of it for a bed: what was measured. What it comes to is worked out anew by the limits in force. */
export const sandRecordSchema = z
  .strictObject({
    id: z.string().min(1).max(64),
    bed: z.string().min(1).max(32),
    at: z.int().min(EARLIEST_TIME_ms).max(LATEST_TIME_ms),
    by: whoSchema,
    note: z.string().max(500).optional(),
    measured: z.strictObject(measuredShape).readonly(),
  })
  .readonly();
export type SandRecord = z.output<typeof sandRecordSchema>;
