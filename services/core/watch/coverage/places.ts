/** The bed as places, each standing for the sand around it. */
import { type Block, blocksOf } from '../../model/bed.js';
import type { Bed } from '../../model/site.js';
import type { Point } from '../warmth/responses.js';

/** Walls half-way between neighbours; the outermost are the block's own. */
function lengths(values: readonly number[], low: number, high: number): Map<number, number> {
  const sorted = [...new Set(values)].sort((one, other) => one - other);
  const wall = (index: number): number => {
    if (index === 0) return low;
    if (index === sorted.length) return high;
    return ((sorted[index - 1] as number) + (sorted[index] as number)) / 2;
  };
  return new Map(sorted.map((value, index) => [value, wall(index + 1) - wall(index)]));
}

const isIn = ({ top, bottom }: Block, { depth }: Point): boolean => depth > top && depth < bottom;

/**
 * The sand that each place stands for: up to half-way to its neighbours in its step of the bed.
 *
 * @param places on a grid of their own in each step, none on a wall between two
 * @returns by place, litres; together the bed's volume
 */
export function volumesOf_L({ steps }: Pick<Bed, 'steps'>, places: readonly Point[]): number[] {
  const volumes = places.map(() => 0);
  for (const block of blocksOf(steps)) {
    const own = places.filter((place) => isIn(block, place));
    const x = lengths(
      own.map((place) => place.x),
      block.left,
      block.right,
    );
    const y = lengths(
      own.map((place) => place.y),
      block.near,
      block.far,
    );
    const depth = lengths(
      own.map((place) => place.depth),
      block.top,
      block.bottom,
    );
    places.forEach((place, index) => {
      if (isIn(block, place))
        volumes[index] =
          ((x.get(place.x) as number) * (y.get(place.y) as number) * (depth.get(place.depth) as number)) /
          1000;
    });
  }
  return volumes;
}
