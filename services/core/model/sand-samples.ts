/** Samples of sand: sieved, and weighed moist and dried. */
import { z } from 'zod';

/** A bucket on a shed's balance, g; more is a mistaken unit. */
const MOST_g = 100_000;

const mass_g = z.number().nonnegative().max(MOST_g);

/** A sieve by its opening, or by its number on the frame (ASTM E11). */
const sieveSchema = z.union(
  [
    z.strictObject({ opening_mm: z.number().positive().max(200), retained_g: mass_g }),
    z.strictObject({ number: z.int().positive(), retained_g: mass_g }),
  ],
  { error: 'expected { opening_mm, retained_g } or { number, retained_g }' },
);

/** A dry sample shaken through a stack of sieves: the coarsest first, and what fell through all of them. */
export const sievingSchema = z
  .strictObject({
    sieves: z.array(sieveSchema).min(2).max(30).readonly(),
    pan_g: mass_g,
    /** Of the whole sample before it was sieved; without it a loss cannot be seen. */
    total_g: z.number().positive().max(MOST_g).optional(),
  })
  .readonly();
export type Sieving = z.output<typeof sievingSchema>;

/**
 * - `oven` at 110 °C to constant mass (ASTM D2216)
 * - `pan` on a fire, stirred, to constant mass (ASTM D4959)
 */
export const DRYING_WAYS = ['oven', 'pan'] as const;
export type DryingWay = (typeof DRYING_WAYS)[number];

/** A sample weighed moist and dried, both with its container. */
export const weighingSchema = z
  .strictObject({
    wet_g: mass_g,
    dry_g: mass_g,
    /** Weighings between the moist one and the last, with the container, in order of time. */
    driedBefore_g: z.array(mass_g).max(30).readonly().optional(),
    container_g: mass_g,
    /** Least step that the balance shows. */
    resolution_g: z.number().positive().max(100),
    way: z.enum(DRYING_WAYS),
  })
  .readonly();
export type Weighing = z.output<typeof weighingSchema>;
