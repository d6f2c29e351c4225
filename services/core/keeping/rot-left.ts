/** Rot that a look found and, by the record, left in the bed: it stays a job until a later look or a repacking ends it. */
import type { Inspection } from '../model/inspection.js';

export interface RotLeft {
  /** When it was found first, ms. */
  readonly since: number;
  /** The last look that found it, ms. */
  readonly at: number;
}

export interface RotStanding {
  /** Null where none is known to be left. */
  readonly left: RotLeft | null;
  /** When rot that had been left was dealt with last, ms; null where none ever was. */
  readonly overAt: number | null;
}

/**
 * A repacking deals with it; so does a look into the open bed that finds none, and one at which as many roots as were
 * counted rotten were written down as thrown. Nothing said of it counts as left.
 *
 * @param looks of the bed since it was filled last, in order of time
 */
export function rotStanding(looks: readonly Inspection[]): RotStanding {
  let standing: RotStanding = { left: null, overAt: null };
  for (const look of looks) {
    if (leavesRot(look))
      standing = { ...standing, left: { since: standing.left?.since ?? look.at, at: look.at } };
    else if (standing.left && look.opened) standing = { left: null, overAt: look.at };
  }
  return standing;
}

const leavesRot = (look: Inspection): boolean =>
  look.found.includes('rot') && !look.repacked && !isTakenOut(look);

/** Roots thrown for another reason, as weevils, are not counted. */
function isTakenOut({ rotten = 0, out = [] }: Inspection): boolean {
  const thrown = out.filter(({ reason, were = 'rotten' }) => reason === 'thrown' && were === 'rotten');
  return rotten > 0 && thrown.reduce((sum, { roots }) => sum + roots, 0) >= rotten;
}
