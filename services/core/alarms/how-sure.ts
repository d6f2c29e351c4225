/** How sure the watch is of a source of warmth, in words for whoever has to dig. */

/**
 * Borders of the logarithm of a likelihood ratio. Judgement: about where, by default, a bed is asked about, and where it
 * is told to be unpacked.
 */
const FAIRLY = 7;
const VERY = 14;

export type Sureness = 'not-very' | 'fairly' | 'very';

/** @param strength logarithm of a likelihood ratio */
export function surenessOf(strength: number): Sureness {
  if (!(strength >= FAIRLY)) return 'not-very';
  return strength >= VERY ? 'very' : 'fairly';
}

const WORDS: Readonly<Record<Sureness, string>> = {
  'not-very': 'not very sure',
  fairly: 'fairly sure',
  very: 'very sure',
};

/** @param strength logarithm of a likelihood ratio */
export const sureInWords = (strength: number): string => WORDS[surenessOf(strength)];
