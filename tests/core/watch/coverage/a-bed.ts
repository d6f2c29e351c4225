/** Small beds whose coverage is soon computed, and what is asked of them. */
import {
  type BedShape,
  type CoverageQuestion,
  coverageOf,
} from '../../../../services/core/watch/coverage/index.js';
import type { Point } from '../../../../services/core/watch/warmth/responses.js';

export const BOX: BedShape = {
  kind: 'box',
  steps: [{ length: 80, width: 50, height: 50 }],
  roots: { mass_kg: 30 },
};

export const PIT: BedShape = {
  kind: 'stepped-pit',
  steps: [
    { length: 100, width: 60, height: 25 },
    { length: 60, width: 40, height: 20 },
  ],
};

/** Mirror images of each other along the length, and across it. */
export const FOUR: readonly Point[] = [
  { x: 22, y: 14, depth: 27 },
  { x: 58, y: 14, depth: 27 },
  { x: 22, y: 36, depth: 27 },
  { x: 58, y: 36, depth: 27 },
];

export const QUESTION: CoverageQuestion = {
  ...{ power_W: 2, days: 7, shade: true },
  rates: { unpack_per_bed_month: 1e-4, check_per_bed_month: 0.1 },
};

export const ask = (points: readonly Point[] = FOUR, change: Partial<CoverageQuestion> = {}, bed = BOX) =>
  coverageOf(bed, points, { ...QUESTION, ...change });
