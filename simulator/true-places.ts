/** Where probes truly are: near to where somebody wrote that they are, and elsewhere once they have been taken out. */
import { type Block, blocksOf, holdsPoint } from '../services/core/model/bed.js';
import { closedAt } from './openings.js';
import { normal, randomFor } from './random.js';
import type { Scenario, SimulatedBed } from './scenario.js';

/** cm. */
export interface Place {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
}

/** By how much a place in a bed is written down wrongly, each way, standard deviation, cm. Judgement. */
const MISPLACED_cm = 2.5;

/** A buried probe has at least so much sand over it and beside it, cm. */
const COVER_cm = 1;

/** Where each probe of a bed is on a day, by its id, wherever it would lie were it not pulled out. */
export function truePlaces(
  { variation }: Scenario,
  bed: SimulatedBed,
  seed: number,
  day: number,
): Map<string, Place> {
  const blocks = blocksOf(bed.steps);
  return new Map(
    bed.probes.map(({ id, x, y, depth }) => {
      let place = shifted(blocks, { x, y, depth }, variation * MISPLACED_cm, [seed, 'place', id]);
      bed.openings.forEach((opening, index) => {
        if (closedAt(opening) <= day && place.depth < opening.depth)
          place = shifted(blocks, place, opening.moved_cm, [seed, 'moved', id, String(index)]);
      });
      return [id, place];
    }),
  );
}

function shifted(
  blocks: readonly Block[],
  place: Place,
  sd_cm: number,
  [seed, ...names]: [number, ...string[]],
): Place {
  if (sd_cm === 0) return place;
  const random = randomFor(seed, ...names);
  const [x, y, depth] = [place.x, place.y, place.depth].map((at) => at + sd_cm * normal(random)) as [
    number,
    number,
    number,
  ];
  if (blocks.some((block) => holdsPoint([inner(block)], x, y, depth))) return { x, y, depth };
  const home = blocks.find((block) => holdsPoint([block], place.x, place.y, place.depth)) ?? blocks[0];
  return home ? intoBlock(inner(home), { x, y, depth }) : place;
}

const inner = ({ left, right, near, far, top, bottom }: Block): Block => ({
  left: left + COVER_cm,
  right: right - COVER_cm,
  near: near + COVER_cm,
  far: far - COVER_cm,
  top: top === 0 ? COVER_cm : top,
  bottom,
});

const intoBlock = ({ left, right, near, far, top, bottom }: Block, { x, y, depth }: Place): Place => ({
  x: Math.min(right, Math.max(left, x)),
  y: Math.min(far, Math.max(near, y)),
  depth: Math.min(bottom, Math.max(top, depth)),
});

/** Between two places, cm. */
export const distance_cm = (one: Place, other: Place): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.depth - other.depth);
