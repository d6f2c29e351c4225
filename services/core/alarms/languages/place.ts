/** A place in the words of a language, from the clearest to the shortest. */
import type { Place } from '../../model/alarm.js';
import type { Step } from '../../model/bed.js';
import { lengthInWords, TOUCHING_cm } from '../length-in-words.js';
import type { Catalogue, MessageKey } from './catalogue.js';
import { say } from './say.js';
import { type FromWall, type Spot, spotOf } from './spot.js';

/** Whether lengths are said as an arm shows them, or in centimetres only. */
export const PLACE_STYLES = ['arms', 'centimetres'] as const;
export type PlaceStyle = (typeof PLACE_STYLES)[number];

type LengthSaid = (length_cm: number) => string;

const HALF_METRE_cm = 50;

const isKey = (catalogue: Catalogue, key: string): key is MessageKey =>
  Object.hasOwn(catalogue.messages, key);

const inCentimetres =
  (catalogue: Catalogue): LengthSaid =>
  (length) =>
    say(catalogue, 'length.cm', { length });

/** The same lengths as in English, whose words are the keys; half metres where arms are no measure any more. */
const inArms =
  (catalogue: Catalogue): LengthSaid =>
  (length_cm) => {
    const key = `length.${lengthInWords(length_cm)}`;
    if (isKey(catalogue, key)) return say(catalogue, key);
    return say(catalogue, 'length.m', { length: Math.round(length_cm / HALF_METRE_cm) / 2 });
  };

/** A depth whose English words have no key would be one that was added there alone: it is said in centimetres. */
function depthSaid(catalogue: Catalogue, { down, depth_cm }: Spot): string {
  const key = `depth.${down}`;
  return isKey(catalogue, key) ? say(catalogue, key) : inCentimetres(catalogue)(depth_cm);
}

function wallSaid(
  catalogue: Catalogue,
  from: FromWall | 'middle',
  part: 'side' | 'end',
  length: LengthSaid,
): string {
  if (from === 'middle') return say(catalogue, part === 'side' ? 'place.middle' : 'place.halfway');
  const wall = say(catalogue, `wall.${part}.${from.wall}`);
  return say(catalogue, `place.${from.is}`, { wall, length: length(from.distance_cm) });
}

function spotSaid(catalogue: Catalogue, spot: Spot, down: string, length: LengthSaid): string {
  if (spot.side === 'middle' && spot.end === 'middle') return say(catalogue, 'place.centre', { down });
  const side = wallSaid(catalogue, spot.side, 'side', length);
  const end = wallSaid(catalogue, spot.end, 'end', length);
  return say(catalogue, 'place.list', { down, side, end });
}

function terseWall(catalogue: Catalogue, from: FromWall | 'middle', part: 'side' | 'end'): string {
  const length = inCentimetres(catalogue);
  if (from === 'middle') return wallSaid(catalogue, from, part, length);
  const wall = say(catalogue, `terse.${part}.${from.wall}`);
  return say(catalogue, `terse.${from.is}`, { wall, length: length(from.distance_cm), cm: from.distance_cm });
}

/** `22 cm down, far side 30 cm, NW end 137 cm` */
function terselySaid(catalogue: Catalogue, spot: Spot, down: string): string {
  const { side, end, depth_cm } = spot;
  return say(catalogue, 'place.list', {
    down: depth_cm >= 0 ? say(catalogue, 'terse.depth', { depth: depth_cm }) : down,
    side: terseWall(catalogue, side, 'side'),
    end: terseWall(catalogue, end, 'end'),
  });
}

/**
 * Says where a place is, several times: with the depth as an arm shows it, without,
 * in centimetres, and in the fewest words.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a place or steps that `placeInWords` refuses
 */
export function placesSaid(
  catalogue: Catalogue,
  place: Place,
  steps: readonly Step[],
  style: PlaceStyle = 'arms',
): string[] {
  const spot = spotOf(place, steps);
  const down = depthSaid(catalogue, spot);
  const short = spotSaid(catalogue, spot, down, inCentimetres(catalogue));
  const terse = terselySaid(catalogue, spot, down);
  if (style === 'centimetres') return [short, terse];
  const arms = inArms(catalogue);
  const deep =
    place.depth < TOUCHING_cm ? down : say(catalogue, 'place.downArm', { down, length: arms(place.depth) });
  return [spotSaid(catalogue, spot, deep, arms), spotSaid(catalogue, spot, down, arms), short, terse];
}
