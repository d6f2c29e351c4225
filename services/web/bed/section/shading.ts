/** What the probes see of a bed, cut open: the grid of places that were asked, each with the sand around it. */
import { type Block, blocksOf } from '../../../core/model/bed.js';
import { BLIND, FOUND } from '../../../core/watch/coverage/types.js';
import type { PlaceChance } from '../../api/types/coverage.js';
import { type Point, reachOf, type View } from './views.js';

/** `seen`: a source there would be told in time; `blind`: more likely not than so. */
export type Sight = 'seen' | 'perhaps' | 'blind';

/** A part of the drawing, cm. */
export interface Cell {
  readonly right: readonly [from: number, to: number];
  readonly down: readonly [from: number, to: number];
  readonly sight: Sight;
}

export const sightOf = (chance: number): Sight => {
  if (chance >= FOUND) return 'seen';
  return chance >= BLIND ? 'perhaps' : 'blind';
};

/** Each of some lengths with half of the way to its neighbours; the outermost reach the walls. */
function parts(lengths: readonly number[], [low, high]: readonly [number, number]) {
  const sorted = [...new Set(lengths)].sort((one, other) => one - other);
  return sorted.map((at, index) => {
    const [before, after] = [sorted[index - 1], sorted[index + 1]];
    const from = before === undefined ? low : (before + at) / 2;
    return { at, reach: [from, after === undefined ? high : (at + after) / 2] as const };
  });
}

const isIn = (block: Block, place: Point): boolean =>
  (['x', 'y', 'depth'] as const).every((length) => {
    const [low, high] = reachOf(block, length);
    return place[length] > low && place[length] < high;
  });

const distance = (one: Point, other: Point): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.depth - other.depth);

/** The place that stands for a point: in a large bed not every place was asked. */
const standingFor = (point: Point, places: readonly PlaceChance[]): PlaceChance =>
  places.reduce((best, place) => (distance(place, point) < distance(best, point) ? place : best));

/**
 * Cells of a cut, at what it goes through; from above, at the depth of the cut.
 *
 * @param steps with their corners, cm
 */
export function cellsOf(
  steps: Parameters<typeof blocksOf>[0],
  places: readonly PlaceChance[],
  view: View,
  cut: Point,
): Cell[] {
  const blocks = blocksOf(steps);
  const atCut = (column: readonly PlaceChance[], middle: Point): number =>
    standingFor({ ...middle, [view.through]: cut[view.through] }, column).chance;
  return blocks
    .filter((block) => isAt(view, block, cut))
    .flatMap((block) =>
      cellsIn(
        block,
        places.filter((place) => isIn(block, place)),
        view,
        atCut,
      ),
    );
}

const isAt = (view: View, block: Block, cut: Point): boolean => {
  const [low, high] = reachOf(block, view.through);
  return cut[view.through] >= low && cut[view.through] <= high;
};

type ChanceOf = (column: readonly PlaceChance[], middle: Point) => number;

function cellsIn(block: Block, places: readonly PlaceChance[], view: View, chanceOf: ChanceOf): Cell[] {
  const reaches = (length: keyof Point) =>
    parts(
      places.filter((place) => isIn(block, place)).map((place) => place[length]),
      reachOf(block, length),
    );
  const across = reaches(view.right);
  return reaches(view.down).flatMap((down) =>
    across.map((right): Cell => {
      const within = places.filter(
        (place) => isWithin(place[view.right], right.reach) && isWithin(place[view.down], down.reach),
      );
      const middle = { x: 0, y: 0, depth: 0, [view.right]: right.at, [view.down]: down.at };
      const chance = chanceOf(within.length > 0 ? within : places, middle);
      return { right: right.reach, down: down.reach, sight: sightOf(chance) };
    }),
  );
}

const isWithin = (length: number, [from, to]: readonly [number, number]): boolean =>
  length >= from && length <= to;
