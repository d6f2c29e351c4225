/** What a version of a trial takes over from the one that it supersedes, and what it may not change in silence. */
import { SandlarderError } from '../core/errors.js';
import type { Draw, Trial, TrialBody } from '../core/model/trial.js';

/**
 * What was drawn stays drawn as long as every bed keeps its treatment.
 *
 * @throws SandlarderError CONFLICT where beds would lose theirs
 */
export function assignedOf({ beds }: TrialBody, before: Trial | undefined): Trial['assigned'] {
  const given = beds.some(({ treatment }) => treatment !== undefined);
  if (!before?.assigned) return given ? { how: 'hand' } : null;
  if (!given)
    throw new SandlarderError(
      'CONFLICT',
      'beds: expected the treatments that they have, or others given by hand, got none: treatments are not drawn again',
    );
  const had = new Map(before.beds.map(({ bed, treatment }) => [bed, treatment]));
  const isKept = beds.every(({ bed, treatment }) => had.get(bed) === treatment);
  return isKept ? before.assigned : { how: 'hand' };
}

/** What was shown stands as long as it is of the same beds, blocks and treatments, and none was given by hand. */
export function drawnOf(body: TrialBody, before: Trial | undefined): Draw | undefined {
  const isSame = before?.drawn !== undefined && drawnFrom(body) === drawnFrom(before);
  return isSame ? before.drawn : undefined;
}

const drawnFrom = ({ design, treatments, beds }: Pick<TrialBody, 'design' | 'treatments' | 'beds'>): string =>
  JSON.stringify([
    ...[design, treatments],
    beds.map(({ bed, block = '', treatment = '' }) => JSON.stringify([bed, block, treatment])).sort(),
  ]);

/** @throws SandlarderError CONFLICT */
export function requireUndrawn({ trial, assigned }: Trial): void {
  if (assigned)
    throw new SandlarderError(
      'CONFLICT',
      `trial "${trial}": expected one without treatments, got one whose treatments were ${assigned.how === 'chance' ? `drawn with seed ${assigned.seed}` : 'given by hand'}: who draws until it pleases does not draw by chance`,
    );
}

/** @throws SandlarderError CONFLICT for another seed than that of the draw that was shown */
export function requireOneDraw(drawn: Draw | undefined, seed: number | undefined): void {
  if (drawn !== undefined && seed !== undefined && seed !== drawn.seed)
    throw new SandlarderError(
      'CONFLICT',
      `seed: expected ${drawn.seed}, by which treatments were drawn and shown, got ${seed}: who draws until it pleases does not draw by chance`,
    );
}

type Span = Pick<Trial, 'from' | 'to'>;

/** Whether two spans have a time in common. */
export const overlaps = ({ from, to }: Span, other: Span): boolean =>
  from < (other.to ?? Number.POSITIVE_INFINITY) && other.from < (to ?? Number.POSITIVE_INFINITY);
