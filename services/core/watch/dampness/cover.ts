/** How much sand lies between a probe and the air that swings with the day. */
import { blocksOf, type Step } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';

/** What the way of the daily wave depends on of a bed. */
export interface CoveredBed {
  readonly kind: Bed['kind'];
  readonly steps: readonly Step[];
}

interface Place {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/**
 * Centimetres of sand to each face that stands in the air, the top first: a box stands in it on all sides, a pit has
 * ground around that swings much less, so that only the top counts.
 *
 * @param place cm from the north-west corner of the opening, depth from the top of the sand
 */
export function faces_cm({ kind, steps }: CoveredBed, { x, y, depth }: Place): number[] {
  const [block] = kind === 'box' ? blocksOf(steps) : [];
  if (!block) return [depth];
  const { left, right, near, far, bottom } = block;
  return [depth, bottom - depth, x - left, right - x, y - near, far - y];
}

/** Centimetres of sand to the nearest air. */
export const cover_cm = (bed: CoveredBed, place: Place): number => Math.min(...faces_cm(bed, place));
