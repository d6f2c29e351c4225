/** Where to dig, for somebody who stands at the bed with a stick or a tape measure. */
import { requireInDomain } from '../errors.js';
import type { Place } from '../model/alarm.js';
import { type Block, blocksOf, type Step } from '../model/bed.js';

/** Coordinates beyond this are no place in a bed, cm. */
const FARTHEST_cm = 20_000;

/**
 * Depths as people show them with their own arm: up to the depth in cm, the words. Adult anthropometry, rounded
 * (from memory): breadth of a hand 8 to 10 cm, its length 17 to 20 cm, elbow to finger tips 42 to 48 cm, shoulder
 * to finger tips 65 to 75 cm. The bounds lie about halfway between; that of the hand is lower, since whoever takes a
 * depth for shallower than it is stops digging too early.
 */
const DEPTHS: readonly (readonly [number, string])[] = [
  [5, 'just under the top'],
  [14, "about a hand's width down"],
  [25, "about a hand's length down"],
  [57, 'about a forearm down'],
  [85, "about an arm's length down"],
];
const DEEPER = "deeper than an arm's length";

function depthInWords(depth_cm: number): string {
  return DEPTHS.find(([upTo_cm]) => depth_cm <= upTo_cm)?.[1] ?? DEEPER;
}

/** By thirds of the opening's length. Only the north-west corner is known: which way the length runs is not. */
function endInWords(x_cm: number, opening: Block): string {
  const share = (x_cm - opening.left) / (opening.right - opening.left);
  if (!(share >= 1 / 3)) return 'near the north-west end';
  return share <= 2 / 3 ? 'halfway along' : 'near the far end';
}

function stepInWords(depth_cm: number, blocks: readonly Block[]): string | undefined {
  if (blocks.length < 2) return undefined;
  const index = blocks.findIndex((block) => depth_cm >= block.top && depth_cm < block.bottom);
  if (index === -1) return undefined;
  return `step ${index + 1} of ${blocks.length} from the top`;
}

/** A place said at several lengths. */
export interface PlaceInWords {
  /** Words, then all measures, the step and the radius. For a text without a limit. */
  readonly full: string;
  /** For one line: from the clearest to the shortest. */
  readonly lines: readonly string[];
}

/**
 * Says where a place is.
 *
 * @param place cm from the north-west corner of the opening, depth from the top of the sand
 * @param steps the bed's steps from the top down, at least one
 * @throws SandlarderError OUT_OF_DOMAIN for a coordinate that is no number or is farther than 200 m
 */
export function placeInWords(place: Place, steps: readonly Step[]): PlaceInWords {
  for (const name of ['x', 'y', 'depth', 'radius'] as const)
    requireInDomain(`place.${name} (cm)`, place[name], -FARTHEST_cm, FARTHEST_cm);
  const blocks = blocksOf(steps);
  const opening = blocks[0];
  const [along, across, deep, radius] = [place.x, place.y, place.depth, place.radius].map(Math.round);
  const measured = `${along} cm along and ${across} cm across from the north-west corner`;
  const down = depthInWords(place.depth);
  const end = opening ? `${endInWords(place.x, opening)}, ` : '';
  const step = stepInWords(place.depth, blocks);
  return {
    full: `${end}${down}: ${measured}, ${deep} cm deep${step ? ` (${step})` : ''}, within ${radius} cm of there`,
    lines: [
      `${end}${down}: ${measured}, ${deep} cm deep`,
      `${measured}, ${down} (${deep} cm)`,
      `${along} cm along, ${across} across, ${deep} deep from the north-west corner`,
    ],
  };
}
