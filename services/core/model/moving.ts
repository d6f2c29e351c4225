/** Where a probe is taken to, and what that makes of where it stood before. Nothing of the past is taken away. */
import { z } from 'zod';
import { SandlarderError } from '../errors.js';
import { idSchema } from './id.js';
import type { Placement } from './site.js';
import { formatTime, timeSchema } from './time.js';
import { whoSchema } from './who.js';

const shape = {
  by: whoSchema,
  from: timeSchema,
  bed: idSchema.optional(),
  x: z.number().optional(),
  y: z.number().optional(),
  depth: z.number().optional(),
  ambient: z.literal(true).optional(),
  out: z.literal(true).optional(),
};

const WHERE = ['bed', 'ambient', 'out'] as const;
const POINT = ['x', 'y', 'depth'] as const;

/** A probe into a bed, into the shade outside, or out of where it stands, from a time on. */
export const moveSchema = z.strictObject(shape).superRefine((move, context) => {
  const where = WHERE.filter((key) => move[key] !== undefined);
  const refuse = (path: string[], message: string): void =>
    context.addIssue({ code: 'custom', path, message, input: move });
  if (where.length !== 1)
    refuse(
      [],
      `expected one of "bed" with x, y and depth, "ambient": true for the shade, and "out": true, got ${where.join(' and ') || 'none'}`,
    );
  for (const key of POINT) {
    const isThere = move[key] !== undefined;
    if (move.bed !== undefined && !isThere) refuse([key], 'expected a number of cm, got nothing');
    if (move.bed === undefined && isThere) refuse([key], `expected "bed" with it, got it alone`);
  }
});

type Since = { readonly by: string; readonly from: number };
export type Move = Since &
  (
    | { readonly bed: string; readonly x: number; readonly y: number; readonly depth: number }
    | { readonly ambient: true }
    | { readonly out: true }
  );

/**
 * The placements of a probe once it was moved. At the time of the last one the move corrects it; after that it ends it.
 *
 * @param placements in order of time
 * @throws SandlarderError CONFLICT for a time before the last placement, and for a probe taken out that stands nowhere
 */
export function placementsAfter(placements: readonly Placement[], move: Move): Placement[] {
  const last = placements.at(-1);
  if (last && !(move.from >= last.from))
    throw new SandlarderError(
      'CONFLICT',
      `from: expected a time at or after the last change of its place, ${formatTime(last.from)}, got ${formatTime(move.from)}`,
    );
  if ('out' in move) return takenOut(placements, move.from);
  const before = last && last.from === move.from ? placements.slice(0, -1) : endedBy(placements, move.from);
  const { by: _, ...placement } = move;
  return [...before, placement];
}

function takenOut(placements: readonly Placement[], at: number): Placement[] {
  const last = placements.at(-1);
  if (!last || !(at > last.from) || (last.to !== undefined && last.to <= at))
    throw new SandlarderError(
      'CONFLICT',
      `out: expected a probe that stood somewhere before ${formatTime(at)}, got one that ${last ? 'did not' : 'never did'}`,
    );
  return [...placements.slice(0, -1), { ...last, to: at }];
}

function endedBy(placements: readonly Placement[], at: number): Placement[] {
  const last = placements.at(-1);
  if (last?.to === undefined || last.to <= at) return [...placements];
  return [...placements.slice(0, -1), { ...last, to: at }];
}
