/** The part of a bed in which its probes would find a source, and its blind spots. */
import { blocksOf, volume_L } from '../../model/bed.js';
import { modelOf } from '../warmth/model.js';
import type { Point } from '../warmth/responses.js';
import { placesIn } from '../warmth/sources.js';
import { requireAskable } from './asking.js';
import type { BedShape } from './learned.js';
import { volumesOf_L } from './places.js';
import { Sight } from './sight.js';
import { type Spot, spotsOf } from './spots.js';
import {
  BLIND,
  type BlindSpot,
  type Coverage,
  type CoverageQuestion,
  FOUND,
  type PlaceChance,
} from './types.js';

/** Places that are asked at the most: of a larger bed evenly fewer. */
const MOST_PLACES = 1000;

/** @returns n where one place in n is asked */
export const everyPlace = (count: number): number => Math.ceil(count / MOST_PLACES);

/** Days after which a blind spot is asked again: what has not shown by then is learned away. */
const LATER_days = [10, 14, 21] as const;

/**
 * What probes would find of a source that begins once the bed is learned.
 *
 * By the watch's own filter and scales, on the bed's nominal properties: the evidence that a source would leave on the
 * average, how it spreads by noise and by what is not known of the places of probes, and what the watch asks of it.
 * Constants are those of `warmth/`; a chance holds for a source that grows as `grown` in `warmth/sources.ts`.
 *
 * @param bed its shape, and its roots where they are known
 * @param points of the probes, cm from the north-west corner of the opening; none give a share of 0
 * @throws SandlarderError OUT_OF_DOMAIN for a question or a point outside its range, LIMIT_EXCEEDED for a bed of more
 * than 10 m3 or more than 20 probes
 */
export function coverageOf(bed: BedShape, points: readonly Point[], question: CoverageQuestion): Coverage {
  requireAskable(bed, points, question);
  const all = placesIn(bed);
  const volumes = volumesOf_L(bed, all);
  const every = everyPlace(all.length);
  const sight = points.length > 0 ? sightOf(bed, points, question) : undefined;
  const places = all.flatMap(({ x, y, depth }, index): PlaceChance[] => {
    if (index % every !== 0) return [];
    const chance = sight?.chance(index, question.power_W, question.days) ?? 0;
    return [{ x, y, depth, volume_L: every * (volumes[index] as number), chance }];
  });
  return judged(bed, places, (spot) =>
    laterOf(
      sight,
      all.findIndex((place) => isSame(place, spot.middle)),
      question,
    ),
  );
}

const isSame = (one: Point, other: Point): boolean =>
  one.x === other.x && one.y === other.y && one.depth === other.depth;

function sightOf(bed: BedShape, points: readonly Point[], question: CoverageQuestion): Sight {
  const days = Math.max(question.days, ...LATER_days);
  return new Sight({ bed, points, model: modelOf(bed, points), ...question, days });
}

function judged(
  bed: BedShape,
  places: readonly PlaceChance[],
  later: (spot: Spot) => number | undefined,
): Coverage {
  const bed_L = volume_L(blocksOf(bed.steps));
  const blind = places.filter(({ chance }) => !(chance >= BLIND));
  const blindSpots = spotsOf(blind, bed_L).map((spot): BlindSpot => {
    const { x, y, depth, radius } = spot;
    const days = later(spot);
    return {
      x,
      y,
      depth,
      radius,
      share: spot.volume_L / bed_L,
      ...(days !== undefined && { foundAfter_days: days }),
    };
  });
  return { share: shareFound(places), blindShare: shareOf(places, blind), blindSpots, places };
}

const shareOf = (places: readonly PlaceChance[], some: readonly PlaceChance[]): number => {
  const sum = (of: readonly PlaceChance[]): number => of.reduce((total, { volume_L: own }) => total + own, 0);
  return sum(some) / sum(places);
};

/** @returns of the volume that places stand for, the share that is found */
export const shareFound = (places: readonly PlaceChance[]): number =>
  shareOf(
    places,
    places.filter(({ chance }) => chance >= FOUND),
  );

function laterOf(
  sight: Sight | undefined,
  place: number,
  { power_W, days }: CoverageQuestion,
): number | undefined {
  if (!sight) return undefined;
  return LATER_days.find((later) => later > days && sight.chance(place, power_W, later) >= FOUND);
}
