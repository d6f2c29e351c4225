/** Where a probe may be put: places evenly all over the bed. */
import { blocksOf } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import type { Point } from '../warmth/responses.js';

/** Candidates at the most, and how far they are apart at the least, cm. */
const MOST = 30;
const APART_cm = 20;
const COARSER_cm = 5;

const middles = (from: number, to: number, apart_cm: number): number[] => {
  const parts = Math.max(1, Math.round((to - from) / apart_cm));
  return Array.from({ length: parts }, (_, part) => Math.round(from + ((part + 0.5) * (to - from)) / parts));
};

/** @returns at most 30 places, cm, each in the middle of its part of the bed; the same for the same bed */
export function candidatesIn({ steps }: Pick<Bed, 'steps'>): Point[] {
  const blocks = blocksOf(steps);
  for (let apart_cm = APART_cm; ; apart_cm += COARSER_cm) {
    const points = blocks.flatMap((block) =>
      middles(block.top, block.bottom, apart_cm).flatMap((depth) =>
        middles(block.near, block.far, apart_cm).flatMap((y) =>
          middles(block.left, block.right, apart_cm).map((x) => ({ x, y, depth })),
        ),
      ),
    );
    if (points.length <= Math.max(MOST, blocks.length)) return points;
  }
}
