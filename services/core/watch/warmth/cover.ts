/** How deep a probe lies under sand, whichever way the air is nearest. */
import { blocksOf } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import { BOARDS_AS_SAND_cm } from './priors.js';
import type { Point } from './responses.js';

/** Sand between a probe and the air, cm; of a box its boards count too. */
export function cover_cm({ kind, steps }: Pick<Bed, 'kind' | 'steps'>, { x, y, depth }: Point): number {
  if (kind !== 'box') return depth;
  const [box] = blocksOf(steps);
  if (!box) return depth;
  const sides = [x - box.left, box.right - x, y - box.near, box.far - y, box.bottom - depth];
  return Math.min(depth, Math.max(0, Math.min(...sides)) + BOARDS_AS_SAND_cm);
}
