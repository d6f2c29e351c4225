/** A bed's block with its probes: computed once, the same for the same bed. */
import type { Bed } from '../../model/site.js';
import { Layout } from './layout.js';
import { type Point, type Responses, responsesOf } from './responses.js';
import { type Reading, readingOf } from './search.js';
import { type Sources, sourcesOf } from './sources.js';

export interface BedModel {
  readonly responses: Responses;
  readonly sources: Sources;
  /** Every place that is tried, and one in a few of them, spread over the bed. */
  readonly readings: readonly Reading[];
  readonly spread: readonly Reading[];
  readonly stateSize: number;
}

/** One place in so many is looked at in every step. */
export const SPREAD = 6;

/** Models that are kept, so that a bed that is looked at again does not pay for its block again. About 1 MB each. */
const KEPT = 16;
const kept = new Map<string, BedModel>();

export function modelOf(bed: Pick<Bed, 'kind' | 'steps'>, points: readonly Point[]): BedModel {
  const key = JSON.stringify([bed.kind, bed.steps, points.map(({ x, y, depth }) => [x, y, depth])]);
  const known = kept.get(key);
  if (known) return known;
  const responses = responsesOf(bed, points);
  const sources = sourcesOf(bed, points);
  const readings = sources.places.map((place) => readingOf(place, points));
  const spread = readings.filter((_, index) => index % SPREAD === 0);
  const model = { responses, sources, readings, spread, stateSize: new Layout(points.length).size };
  kept.set(key, model);
  const [oldest] = kept.keys();
  if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
  return model;
}
