/** Places for probes, with how each would answer: computed once for many, and picked from for any few of them. */
import { type BedModel, lateSizes, spreadOver } from '../warmth/model.js';
import { type AtProbe, type Point, type Responses, responsesOf } from '../warmth/responses.js';
import { readingOf } from '../warmth/search.js';
import { SHAPES, type Sources, sourcesOf } from '../warmth/sources.js';
import type { BedShape } from './learned.js';

export interface Pool {
  readonly points: readonly Point[];
  readonly responses: Responses;
  readonly sources: Sources;
}

/** Costs a run of the block for each point, and as much as a bed's model besides. */
export const poolOf = (bed: BedShape, points: readonly Point[]): Pool => ({
  points,
  responses: responsesOf(bed, points),
  sources: sourcesOf(bed, points),
});

export type PickedModel = Pick<BedModel, 'sources' | 'spread' | 'responses'>;

/** @returns the model of a bed that has the picked probes alone */
export function pick(pool: Pool, picked: readonly number[]): PickedModel {
  const own = <Item>(items: readonly Item[]): Item[] => picked.map((index) => items[index] as Item);
  const points = own(pool.points);
  const each = <Item>(record: Readonly<Record<string, readonly Item[]>>): Record<string, Item[]> =>
    Object.fromEntries(Object.entries(record).map(([name, items]) => [name, own(items)]));
  const places = pool.sources.places.map((place) => ({
    ...place,
    weights: Float64Array.from(
      picked.flatMap((index) => [...place.weights.subarray(index * SHAPES, (index + 1) * SHAPES)]),
    ),
  }));
  return {
    responses: {
      drives: each<AtProbe>(pool.responses.drives) as unknown as Responses['drives'],
      ground: each(pool.responses.ground as Parameters<typeof each>[0]) as Responses['ground'],
    },
    sources: { shapes: pool.sources.shapes, places },
    spread: spreadOver(places).map((place) => readingOf(place, points, lateSizes(pool.sources))),
  };
}
