/** How sure the watch is of a source of warmth, in words for whoever has to dig. */

/**
 * Borders of the logarithm of a likelihood ratio. Judgement: about where, by default, a bed is asked about, and where it
 * is told to be unpacked.
 */
const FAIRLY = 7;
const VERY = 14;

/** @param strength logarithm of a likelihood ratio */
export function sureInWords(strength: number): string {
  if (!(strength >= FAIRLY)) return 'not very sure';
  return strength >= VERY ? 'very sure' : 'fairly sure';
}
