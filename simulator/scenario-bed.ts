/** The part of a scenario that describes a bed: its shape, its probes, and what goes wrong in its sand. */
import { z } from 'zod';
import { idSchema } from '../services/core/model/id.js';
import { DAY, numberBetween, PLACE } from './scenario-numbers.js';

const rotSchema = z.strictObject({
  startDay: DAY,
  ...PLACE,
  depth: numberBetween(0, 1000),
  /** Heat of the whole cluster once it is grown, W. */
  grown_W: numberBetween(0, 100),
  /** Days until 63 % of it. */
  growth_days: numberBetween(0.5, 100),
});

/** A bed that somebody opens from the top, and closes again. */
const openingSchema = z.strictObject({
  /** With its time of day: 20.5 is noon of day 20. */
  day: DAY,
  /** How long it stays open. */
  hours: numberBetween(0.2, 240),
  /** Whether somebody writes it down. */
  told: z.boolean(),
  /** Whether roots were taken out, looked through and laid anew: rot down to `depth` is gone after it. */
  repacked: z.boolean().default(false),
  /** How much warmer than the air the sand is when it goes back, °C. */
  sunWarmed_C: numberBetween(-10, 30),
  /** Sand taken out, from the top down to so many cm. */
  depth: numberBetween(1, 300),
  /** Standard deviation by which probes that were taken out end up elsewhere, each way, cm. */
  moved_cm: numberBetween(0, 50).default(0),
});

export const bedSchema = z.strictObject({
  id: idSchema,
  name: z.string().trim().min(1).max(200),
  kind: z.enum(['stepped-pit', 'box']),
  steps: z
    .array(
      z.strictObject({
        length: numberBetween(10, 1000),
        width: numberBetween(10, 1000),
        height: numberBetween(5, 300),
      }),
    )
    .min(1)
    .max(6),
  roots: z.strictObject({
    count: z.number().int().min(0).max(100_000),
    mass_kg: numberBetween(0, 100_000),
  }),
  probes: z.array(z.strictObject({ id: idSchema, ...PLACE, depth: numberBetween(0, 1000) })).max(100),
  rots: z.array(rotSchema).max(20).default([]),
  leak: z.strictObject({ startDay: DAY, ...PLACE, litres_per_day: numberBetween(0, 500) }).optional(),
  /** Water that creeps in from the floor and the walls. */
  damping: z.strictObject({ startDay: DAY, litres_per_day: numberBetween(0, 100) }).optional(),
  openings: z.array(openingSchema).max(50).default([]),
  /** Sand that somebody takes from the top for good, without a word, down to so many cm. */
  sandTaken: z.strictObject({ day: DAY, depth: numberBetween(1, 300) }).optional(),
});

export type BedShape = z.output<typeof bedSchema>;
export type Opening = z.output<typeof openingSchema>;
