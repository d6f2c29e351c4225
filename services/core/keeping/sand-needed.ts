/** Sand for a bed, in litres, buckets and kilograms. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { figureOf } from './plan-figures.js';

export interface SandNeeded {
  /** Dry and loose. */
  readonly sand_L: number;
  readonly sand_kg: number;
  /** Whole buckets: the last is not full. */
  readonly buckets: number;
  readonly bucket_kg: number;
}

/** What is carried by hand, L. Judgement. */
export const BUCKET_L = { low: 1, high: 100 } as const;

/**
 * What is left of the bed once the roots are in it.
 *
 * @param bed_L volume of all steps
 * @param roots_L volume of the roots, less than the bed
 * @param bucket_L what a bucket holds, 1 to 100 L
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function sandNeeded(bed_L: number, roots_L: number, bucket_L = figureOf('bucket')): SandNeeded {
  requireInDomain('bucket, L,', bucket_L, BUCKET_L.low, BUCKET_L.high);
  requireInDomain('volume of the roots, L,', roots_L, 0, Number.MAX_VALUE);
  if (!(bed_L > roots_L))
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `bed, L, must be larger than its roots, ${roots_L}, got ${bed_L}`,
    );
  const sand_L = bed_L - roots_L;
  const density_kg_L = figureOf('sand_density');
  return {
    sand_L,
    sand_kg: sand_L * density_kg_L,
    buckets: Math.ceil(sand_L / bucket_L - 1e-9),
    bucket_kg: bucket_L * density_kg_L,
  };
}
