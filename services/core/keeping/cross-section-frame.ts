/** Where things come to lie in the drawing of a plan: one scale for both directions. */
import type { Plan } from './plan-types.js';

/** Units of the drawing: letters are 20 of them, so that on a screen of 360 points they are 11 points high. */
export const WIDTH = 640;
export const LETTER = 20;
export const LINE = 26;

/** What is left beside the sand for the ground and for words, and above it for the heading. */
const LEFT = 122;
const RIGHT = 222;
const TOP = 104;

/** Of the sand at the most. */
const DEEPEST = 420;

export interface Frame {
  /** From cm along the length, and from cm of depth. */
  readonly x: (along_cm: number) => number;
  readonly y: (depth_cm: number) => number;
  /** Units for each cm. */
  readonly scale: number;
  /** Left and right end, top and underside of each step, cm. */
  readonly steps: readonly {
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
  }[];
  readonly length_cm: number;
  readonly depth_cm: number;
}

export function frameOf({ steps }: Pick<Plan, 'steps'>): Frame {
  const length_cm = steps[0]?.length_cm ?? 0;
  let depth_cm = 0;
  const placed = steps.map((step) => {
    const top = depth_cm;
    depth_cm += step.height_cm;
    const left = (length_cm - step.length_cm) / 2;
    return { left, right: left + step.length_cm, top, bottom: depth_cm };
  });
  const across = WIDTH - LEFT - RIGHT;
  const scale = Math.min(across / length_cm, DEEPEST / depth_cm);
  const from = LEFT + (across - scale * length_cm) / 2;
  return {
    x: (along_cm) => from + scale * along_cm,
    y: (below_cm) => TOP + scale * below_cm,
    scale,
    steps: placed,
    length_cm,
    depth_cm,
  };
}
