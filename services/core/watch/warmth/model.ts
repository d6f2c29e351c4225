/** A bed's block with its probes: computed once, the same for the same bed. */
import { type Block, blocksOf, holdsPoint } from '../../model/bed.js';
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
  /** Where roots may lie: a source is placed there. */
  readonly inner: readonly Reading[];
  readonly stateSize: number;
}

/** One place in so many is looked at in every step, spread over the bed. */
const SPREAD = 6;

export const spreadOver = <Item>(places: readonly Item[]): Item[] =>
  places.filter((_, index) => index % SPREAD === 0);

/** Models that are kept, so that a bed that is looked at again does not pay for its block again. About 1 MB each. */
const KEPT = 16;
const kept = new Map<string, BedModel>();

/** Steps after which a source is compared from place to place. */
const LATE_steps = 40;

/** By shape, what it has grown to by then. */
export const lateSizes = ({ shapes }: Pick<Sources, 'shapes'>): number[] =>
  shapes.map((shape) => shape[LATE_steps] as number);

/**
 * The middle of rotting roots is at least so far from walls and floor, and so deep, cm: about 5 cm of sand lie under,
 * between and over the courses (common practice, no source).
 */
const FROM_WALL_cm = 5;
const FROM_TOP_cm = 7;

function mayHoldRoots(blocks: readonly Block[], { x, y, depth }: Point): boolean {
  const holds = (dx: number, dy: number, deeper: number): boolean =>
    holdsPoint(blocks, x + dx, y + dy, depth + deeper);
  return (
    depth >= FROM_TOP_cm &&
    holds(FROM_WALL_cm, 0, 0) &&
    holds(-FROM_WALL_cm, 0, 0) &&
    holds(0, FROM_WALL_cm, 0) &&
    holds(0, -FROM_WALL_cm, 0) &&
    holds(0, 0, FROM_WALL_cm)
  );
}

/** All of them where a bed is so small that none are left. */
function innerOf(bed: Pick<Bed, 'steps'>, readings: readonly Reading[]): readonly Reading[] {
  const blocks = blocksOf(bed.steps);
  const inner = readings.filter(({ place }) => mayHoldRoots(blocks, place));
  return inner.length > 0 ? inner : readings;
}

export function modelOf(bed: Pick<Bed, 'kind' | 'steps'>, points: readonly Point[]): BedModel {
  const key = JSON.stringify([bed.kind, bed.steps, points.map(({ x, y, depth }) => [x, y, depth])]);
  const known = kept.get(key);
  if (known) return known;
  const responses = responsesOf(bed, points);
  const sources = sourcesOf(bed, points);
  const late = lateSizes(sources);
  const readings = sources.places.map((place) => readingOf(place, points, late));
  const spread = spreadOver(readings);
  const inner = innerOf(bed, readings);
  const model = { responses, sources, readings, spread, inner, stateSize: new Layout(points.length).size };
  kept.set(key, model);
  const [oldest] = kept.keys();
  if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
  return model;
}
