/** Blind places, gathered to a few spots that somebody can be told of. */
import type { Point } from '../warmth/responses.js';
import type { PlaceChance } from './types.js';

/** A spot reaches so far from the place about which it is gathered, cm: two spans, as far as a probe sees. */
const REACH_cm = 30;
/** Spots that are told of at the most, and the share of the bed that one has at the least. */
const MOST_SPOTS = 8;
const LEAST_SHARE = 0.02;

export const distance_cm = (one: Point, other: Point): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.depth - other.depth);

const volume = (places: readonly PlaceChance[]): number =>
  places.reduce((sum, { volume_L }) => sum + volume_L, 0);

export interface Spot extends Point {
  /** Holds all of its places, cm. */
  readonly radius: number;
  readonly volume_L: number;
  /** The one of its places that lies nearest to its middle. */
  readonly middle: PlaceChance;
}

/**
 * The place around which most lies is taken with all about it, again and again.
 *
 * @param blind places that are not found
 * @param bed_L volume of the whole bed
 */
export function spotsOf(blind: readonly PlaceChance[], bed_L: number): Spot[] {
  const spots: Spot[] = [];
  let left = blind;
  while (left.length > 0 && spots.length < MOST_SPOTS) {
    const members = largest(left);
    if (!(volume(members) >= LEAST_SHARE * bed_L)) break;
    spots.push(spotOf(members));
    left = left.filter((place) => !members.includes(place));
  }
  return spots;
}

function largest(places: readonly PlaceChance[]): PlaceChance[] {
  let most: PlaceChance[] = [];
  let most_L = 0;
  for (const about of places) {
    const members = places.filter((place) => distance_cm(place, about) <= REACH_cm);
    const own_L = volume(members);
    if (own_L > most_L * (1 + 1e-9)) [most, most_L] = [members, own_L];
  }
  return most;
}

function spotOf(members: readonly PlaceChance[]): Spot {
  const volume_L = volume(members);
  const mean = (of: (place: PlaceChance) => number): number =>
    members.reduce((sum, place) => sum + of(place) * place.volume_L, 0) / volume_L;
  const at = { x: mean(({ x }) => x), y: mean(({ y }) => y), depth: mean(({ depth }) => depth) };
  const middle = members.reduce((one, other) =>
    distance_cm(other, at) < distance_cm(one, at) ? other : one,
  );
  const { x, y, depth } = middle;
  const radius = Math.max(...members.map((place) => distance_cm(place, middle)));
  return { x, y, depth, radius, volume_L, middle };
}
