/** What the numbers of a bed must agree on. */
import { type Block, blocksOf, holdsPoint } from '../services/core/model/bed.js';
import type { Problem } from '../services/core/model/site.js';
import type { BedShape } from './scenario-bed.js';

type Path = Problem['path'];

export function bedProblems(bed: BedShape, path: Path): Problem[] {
  const blocks = blocksOf(bed.steps);
  const inside = (at: Path, point: { x: number; y: number; depth: number }): Problem[] =>
    insideProblems(bed.id, blocks, [...path, ...at], point);
  return [
    ...stepProblems(bed, path),
    ...bed.probes.flatMap((probe, index) => inside(['probes', index], probe)),
    ...bed.rots.flatMap((rot, index) => inside(['rots', index], rot)),
    ...(bed.leak ? inside(['leak'], { ...bed.leak, depth: blocks[0]?.top ?? 0 }) : []),
    ...openingProblems(bed, path),
    ...depthProblems(bed, blocks, path),
  ];
}

function stepProblems({ kind, steps }: BedShape, path: Path): Problem[] {
  if (kind !== 'box' || steps.length === 1) return [];
  const message = `expected exactly one step for a box, got ${steps.length}`;
  return [{ path: [...path, 'steps'], message }];
}

function insideProblems(
  id: string,
  blocks: readonly Block[],
  path: Path,
  { x, y, depth }: { x: number; y: number; depth: number },
): Problem[] {
  if (holdsPoint(blocks, x, y, depth)) return [];
  const message = `expected a point inside bed "${id}", got x ${x}, y ${y}, depth ${depth} cm`;
  return [{ path, message }];
}

/** A bed is closed before it is opened again. */
function openingProblems({ openings }: BedShape, path: Path): Problem[] {
  return openings.flatMap(({ day }, index) => {
    const before = openings[index - 1];
    const closed = before ? before.day + before.hours / 24 : Number.NEGATIVE_INFINITY;
    if (day > closed) return [];
    const message = `expected a day after ${closed}, when the bed is closed again: openings run in order, got ${day}`;
    return [{ path: [...path, 'openings', index, 'day'], message }];
  });
}

/** Nobody takes out more sand than there is; and what is taken for good leaves a bed. */
function depthProblems({ openings, sandTaken }: BedShape, blocks: readonly Block[], path: Path): Problem[] {
  const bottom = blocks.at(-1)?.bottom ?? 0;
  const problem = (at: Path, expected: string, depth: number): Problem => ({
    path: [...path, ...at, 'depth'],
    message: `expected ${expected} the depth of the bed, ${bottom} cm, got ${depth}`,
  });
  const tooDeep = openings.flatMap(({ depth }, index) =>
    depth <= bottom ? [] : [problem(['openings', index], 'at most', depth)],
  );
  return !sandTaken || sandTaken.depth < bottom
    ? tooDeep
    : [...tooDeep, problem(['sandTaken'], 'less than', sandTaken.depth)];
}
