/** How many parts a text takes as short messages, and the first of several texts that takes few enough. */
import { ONE_MESSAGE_septets, septetsOf } from '../septets.js';

/** A text that is ready to send as a short message. */
export interface Fitted {
  readonly text: string;
  /** UCS-2 as soon as one character is not in the GSM 7-bit default alphabet. */
  readonly alphabet: 'gsm' | 'ucs2';
  readonly parts: number;
}

type Alphabet = Fitted['alphabet'];

/** Computed from 140 octets, of which a header of 6 joins the parts of one text [3GPP TS 23.040 9.2.3.24.1]. */
const LIMITS: Readonly<Record<Alphabet, { readonly alone: number; readonly joined: number }>> = {
  gsm: { alone: ONE_MESSAGE_septets, joined: 153 },
  ucs2: { alone: 70, joined: 67 },
};

/** One part; two where each holds not even half as much. */
const MOST_PARTS: Readonly<Record<Alphabet, number>> = { gsm: 1, ucs2: 2 };

/** No part begins within an escape pair or a surrogate pair. */
function partsOf(text: string, alphabet: Alphabet): number {
  const { alone, joined } = LIMITS[alphabet];
  let length = 0;
  let parts = 1;
  let filled = 0;
  for (const character of text) {
    const size = alphabet === 'gsm' ? (septetsOf(character) ?? 1) : character.length;
    length += size;
    if (filled + size > joined) {
      parts += 1;
      filled = 0;
    }
    filled += size;
  }
  return length <= alone ? 1 : parts;
}

export function measured(text: string): Fitted {
  const alphabet = septetsOf(text) === undefined ? 'ucs2' : 'gsm';
  return { text, alphabet, parts: partsOf(text, alphabet) };
}

/** Whether it takes one part, or two in UCS-2. */
export const fits = ({ alphabet, parts }: Fitted): boolean => parts <= MOST_PARTS[alphabet];

/**
 * The first text that fits; where none does, of those with the fewest parts the first. Nothing is cut off.
 *
 * @param texts from the clearest to the shortest, at least one
 */
export function firstFitting(texts: readonly string[]): Fitted {
  let best: Fitted | undefined;
  for (const text of texts) {
    const candidate = measured(text);
    if (fits(candidate)) return candidate;
    if (!best || candidate.parts < best.parts) best = candidate;
  }
  return best ?? measured('');
}
