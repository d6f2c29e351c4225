/** How much sand lies between a probe and the air that swings with the day. */
import { blocksOf } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';

/** What the way of the daily wave depends on of a bed. */
export type CoveredBed = Pick<Bed, 'kind' | 'steps'>;

/**
 * Centimetres of sand to the nearest air: a box stands in it on all sides, a pit has ground around that swings much
 * less, so that only the top counts.
 *
 * @param place cm from the north-west corner of the opening, depth from the top of the sand
 */
export function cover_cm(
  { kind, steps }: CoveredBed,
  { x, y, depth }: { readonly x: number; readonly y: number; readonly depth: number },
): number {
  if (kind !== 'box') return depth;
  const [block] = blocksOf(steps);
  if (!block) return depth;
  const { left, right, near, far, bottom } = block;
  return Math.min(depth, bottom - depth, x - left, right - x, y - near, far - y);
}
