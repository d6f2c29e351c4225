/** The three drawings of a bed: which of its lengths run across each, which run down, and who looks from where. */
import type { Block } from '../../../core/model/bed.js';

/** cm, as everywhere: from the north-west corner of the opening, down from the top of the sand. */
export interface Point {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

export type ViewName = 'along' | 'across' | 'above';

export interface View {
  readonly name: ViewName;
  /** To the right, down, and through the drawing. */
  readonly right: keyof Point;
  readonly down: keyof Point;
  readonly through: keyof Point;
  /** 1 where what is in front of the cut has the greater length through it, -1 where the smaller. */
  readonly front: 1 | -1;
}

/**
 * `along` is seen from the far side, `across` from the north-west end, so that in both the north-west corner's wall is
 * on the left; `above` has the north-west corner at its top left.
 */
export const VIEWS: Readonly<Record<ViewName, View>> = {
  along: { name: 'along', right: 'x', down: 'depth', through: 'y', front: 1 },
  across: { name: 'across', right: 'y', down: 'depth', through: 'x', front: -1 },
  above: { name: 'above', right: 'x', down: 'y', through: 'depth', front: -1 },
};

/** Low and high end of a block in one of its lengths, cm. */
export function reachOf(block: Block, length: keyof Point): readonly [low: number, high: number] {
  if (length === 'x') return [block.left, block.right];
  return length === 'y' ? [block.near, block.far] : [block.top, block.bottom];
}

/** Of the whole bed. */
export function reachOfAll(blocks: readonly Block[], length: keyof Point): readonly [number, number] {
  const reaches = blocks.map((block) => reachOf(block, length));
  return [Math.min(...reaches.map(([low]) => low)), Math.max(...reaches.map(([, high]) => high))];
}

/** Nearer to the cut than this, a place lies on it, cm: half a hand. */
export const ON_THE_CUT_cm = 5;

/** `distance_cm` is positive in front of the cut, negative behind it; 0 on it, and for what is seen from above. */
export function beforeCut(view: View, point: Point, cut: Point): number {
  if (view.name === 'above') return 0;
  const distance_cm = (point[view.through] - cut[view.through]) * view.front;
  return Math.abs(distance_cm) <= ON_THE_CUT_cm ? 0 : distance_cm;
}

/** Whether the cut goes through a block; seen from above every block is there. */
export function isCut(view: View, block: Block, cut: Point): boolean {
  if (view.name === 'above') return true;
  const [low, high] = reachOf(block, view.through);
  return cut[view.through] >= low && cut[view.through] <= high;
}
