/** What may be asked. */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { blocksOf, holdsPoint, volume_L } from '../../model/bed.js';
import type { Point } from '../warmth/responses.js';
import type { BedShape } from './learned.js';
import type { CoverageQuestion } from './types.js';

/** Bounds of a question: beyond, the watch takes a source for none, or has let go of when it began. */
export const ASKED = { power_W: { low: 0.5, high: 8 }, days: { low: 1, high: 21 } } as const;

/** They bound what one question costs: some seconds of one core, and tens of megabytes. */
export const MOST_BED_L = 10_000;
export const MOST_PROBES = 20;

/** @throws SandlarderError OUT_OF_DOMAIN, LIMIT_EXCEEDED */
export function requireAskable(
  bed: BedShape,
  points: readonly Point[],
  { power_W, days }: CoverageQuestion,
  count = points.length,
): void {
  requireInDomain('power (W)', power_W, ASKED.power_W.low, ASKED.power_W.high);
  requireInDomain('days', days, ASKED.days.low, ASKED.days.high);
  const blocks = blocksOf(bed.steps);
  requireInDomain('number of steps', blocks.length, 1, Number.POSITIVE_INFINITY);
  for (const { x, y, depth } of points)
    if (!holdsPoint(blocks, x, y, depth))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `probe: expected a point inside the bed, got x ${x}, y ${y}, depth ${depth} cm`,
      );
  const bed_L = volume_L(blocks);
  if (!(bed_L <= MOST_BED_L))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `bed: expected at most ${MOST_BED_L} L, got ${Math.round(bed_L)} L`,
    );
  if (!(count <= MOST_PROBES))
    throw new SandlarderError('LIMIT_EXCEEDED', `probes: expected at most ${MOST_PROBES}, got ${count}`);
}
