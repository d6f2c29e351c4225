/** Where a place is, before it is put into any language's words. */
import type { Place } from '../../model/alarm.js';
import { blocksOf, type Step } from '../../model/bed.js';
import { depthInWords } from '../depth-in-words.js';
import { TOUCHING_cm } from '../length-in-words.js';
import { placeInWords } from '../place-in-words.js';

/** The same limits as for the English words of `placeInWords`; a test holds the two together. */
const MIDDLE_cm = 12;
const MIDDLE_SHARE = 1 / 6;

export interface FromWall {
  /** `near` meets in the north-west corner, where the coordinates begin. */
  readonly wall: 'near' | 'far';
  readonly is: 'at' | 'from' | 'outside';
  /** Not negative, cm. */
  readonly distance_cm: number;
}

export interface Spot {
  readonly depth_cm: number;
  /** English words for the depth, under which each catalogue has its own. */
  readonly down: string;
  readonly side: FromWall | 'middle';
  readonly end: FromWall | 'middle';
}

function fromWall(at_cm: number, low_cm: number, high_cm: number): FromWall | 'middle' {
  const middle_cm = (low_cm + high_cm) / 2;
  const slack_cm = Math.min(MIDDLE_cm, (high_cm - low_cm) * MIDDLE_SHARE);
  if (Math.abs(at_cm - middle_cm) <= slack_cm) return 'middle';
  const wall = at_cm < middle_cm ? 'near' : 'far';
  const inside_cm = wall === 'near' ? at_cm - low_cm : high_cm - at_cm;
  const distance_cm = Math.abs(inside_cm);
  if (distance_cm < TOUCHING_cm) return { wall, is: 'at', distance_cm };
  return { wall, is: inside_cm > 0 ? 'from' : 'outside', distance_cm };
}

/**
 * How deep a place is, and how far from the nearer side and the nearer end of the opening.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a place or steps that `placeInWords` refuses
 */
export function spotOf(place: Place, steps: readonly Step[]): Spot {
  placeInWords(place, steps);
  const blocks = blocksOf(steps);
  const { left = 0, right = 0, near = 0, far = 0 } = blocks[0] ?? {};
  return {
    depth_cm: place.depth,
    down: depthInWords(place.depth, blocks.at(-1)?.bottom ?? 0),
    side: fromWall(place.y, near, far),
    end: fromWall(place.x, left, right),
  };
}
