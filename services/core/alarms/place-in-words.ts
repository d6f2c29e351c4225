/** Where to dig, for somebody who stands at the bed. */
import { requireInDomain } from '../errors.js';
import type { Place } from '../model/alarm.js';
import { type Block, blocksOf, type Step } from '../model/bed.js';
import { depthInWords } from './depth-in-words.js';
import { lengthInWords, TOUCHING_cm } from './length-in-words.js';

/** Coordinates beyond this are no place in a bed, cm. */
const FARTHEST_cm = 20_000;

/** What is no farther from the middle is in the middle, cm: as exact as arms show the other lengths. */
const MIDDLE_cm = 12;

/** In a narrow bed the middle is this share of it on either side, so that each side keeps a third. */
const MIDDLE_SHARE = 1 / 6;

/** Which of two opposite walls is nearer, and how far it is; `middle` where neither is to be named. */
type Nearest = 'middle' | { readonly wall: 'north-west' | 'far'; readonly distance_cm: number };

/** Only the corner is known, not which way the length runs: the walls that meet in it are called after it. */
function nearestWall(at_cm: number, low_cm: number, high_cm: number): Nearest {
  const middle_cm = (low_cm + high_cm) / 2;
  const slack_cm = Math.min(MIDDLE_cm, (high_cm - low_cm) * MIDDLE_SHARE);
  if (Math.abs(at_cm - middle_cm) <= slack_cm) return 'middle';
  return at_cm < middle_cm
    ? { wall: 'north-west', distance_cm: at_cm - low_cm }
    : { wall: 'far', distance_cm: high_cm - at_cm };
}

/** How lengths and walls are said in one of the variants. */
interface Manner {
  readonly length: (length_cm: number) => string;
  readonly wall: (wall: 'north-west' | 'far', part: 'end' | 'side') => string;
}

const IN_WORDS: Manner = {
  length: (length_cm) => `about ${lengthInWords(length_cm)}`,
  wall: (wall, part) => `the ${wall} ${part}`,
};
const SHORT_WALL: Manner['wall'] = (wall, part) => `${wall === 'far' ? 'far' : 'NW'} ${part}`;
const SHORT: Manner = { length: lengthInWords, wall: SHORT_WALL };
const SHORTEST: Manner = { length: (length_cm) => `${Math.round(length_cm)} cm`, wall: SHORT_WALL };

function fromWall(nearest: Exclude<Nearest, 'middle'>, part: 'end' | 'side', manner: Manner): string {
  const { wall, distance_cm } = nearest;
  const name = manner.wall(wall, part);
  if (Math.abs(distance_cm) < TOUCHING_cm) return `at ${name}`;
  return `${manner.length(Math.abs(distance_cm))} ${distance_cm > 0 ? 'from' : 'outside'} ${name}`;
}

interface Spot {
  readonly down: string;
  readonly along: Nearest;
  readonly across: Nearest;
}

/** `half-way down in the middle, about a forearm from the far end`. */
function inSentence({ along, across }: Spot, down: string): string {
  if (across === 'middle') {
    if (along === 'middle') return `${down} in the middle of the bed`;
    return `${down} in the middle, ${fromWall(along, 'end', IN_WORDS)}`;
  }
  const side = fromWall(across, 'side', IN_WORDS);
  if (along === 'middle') return `${down}, ${side}, half-way along`;
  return `${down}, ${side} and ${fromWall(along, 'end', IN_WORDS)}`;
}

/** `half-way down, a span from NW side, a forearm from far end`. */
function inList({ down, along, across }: Spot, manner: Manner): string {
  if (along === 'middle' && across === 'middle') return `${down}, middle of the bed`;
  const side = across === 'middle' ? 'middle' : fromWall(across, 'side', manner);
  const end = along === 'middle' ? 'half-way along' : fromWall(along, 'end', manner);
  return `${down}, ${side}, ${end}`;
}

function stepInWords(depth_cm: number, blocks: readonly Block[]): string {
  if (blocks.length < 2) return '';
  const index = blocks.findIndex((block) => depth_cm >= block.top && depth_cm < block.bottom);
  return index === -1 ? '' : ` (step ${index + 1} of ${blocks.length} from the top)`;
}

function inCentimetres(place: Place, blocks: readonly Block[]): string {
  const [along, across, deep, radius] = [place.x, place.y, place.depth, place.radius].map(Math.round);
  return (
    `${along} cm along and ${across} cm across from the north-west corner of the opening, ${deep} cm deep` +
    `${stepInWords(place.depth, blocks)}. Look within ${radius} cm of there. The north-west end and the ` +
    'north-west side meet in that corner; ends lie along the length, sides across it'
  );
}

/** A place said at several lengths. */
export interface PlaceInWords {
  /** Words, then all measures, the step and the radius; without the last full stop. For a text without a limit. */
  readonly full: string;
  /** For one line: from the clearest to the shortest. The last has at most 58 characters within 10 m. */
  readonly lines: readonly string[];
}

/**
 * Says where a place is: how deep, how far from the nearer side and from the nearer end of the opening, in lengths
 * that an arm shows.
 *
 * @param place cm from the north-west corner of the opening, depth from the top of the sand
 * @param steps the bed's steps from the top down, at least one
 * @throws SandlarderError OUT_OF_DOMAIN for a coordinate that is no number or is farther than 200 m, or without steps
 */
export function placeInWords(place: Place, steps: readonly Step[]): PlaceInWords {
  for (const name of ['x', 'y', 'depth', 'radius'] as const)
    requireInDomain(`place.${name} (cm)`, place[name], -FARTHEST_cm, FARTHEST_cm);
  requireInDomain('number of steps', steps.length, 1, Number.POSITIVE_INFINITY);
  const blocks = blocksOf(steps);
  const { left = 0, right = 0, near = 0, far = 0 } = blocks[0] ?? {};
  const down = depthInWords(place.depth, blocks.at(-1)?.bottom ?? 0);
  const spot = {
    down,
    along: nearestWall(place.x, left, right),
    across: nearestWall(place.y, near, far),
  };
  const sentence = inSentence(spot, down);
  const arm = place.depth < TOUCHING_cm ? '' : ` (about ${lengthInWords(place.depth)})`;
  return {
    full: `${sentence}: ${inCentimetres(place, blocks)}`,
    lines: [inSentence(spot, `${down}${arm}`), sentence, inList(spot, SHORT), inList(spot, SHORTEST)],
  };
}
