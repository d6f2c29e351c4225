/**
 * Splits a text into the parts that go out one by one. Sizes follow from 140 octets of user data, of which a
 * concatenation header with an 8-bit reference takes 6: 3GPP TS 23.040 section 9.2.3.24.1.
 */
import { ONE_MESSAGE_septets, septetsOf } from '../../core/alarms/septets.js';
import { SandlarderError } from '../../core/errors.js';
import { septetsOfCharacter } from './alphabet.js';

export type Coding = 'gsm-7' | 'ucs-2';

/** Where a part belongs. */
export interface Concatenation {
  /** The same in all parts of a text, 0 to 255. */
  readonly reference: number;
  /** 2 to 255. */
  readonly total: number;
  /** From 1. */
  readonly number: number;
}

export interface Part {
  readonly coding: Coding;
  readonly text: string;
  /** Absent where the text is one message. */
  readonly concatenation?: Concatenation;
}

/** Septets, or UTF-16 units: in a message by itself, and in a part. */
const SIZES: Readonly<Record<Coding, { readonly single: number; readonly part: number }>> = {
  'gsm-7': { single: ONE_MESSAGE_septets, part: 153 },
  'ucs-2': { single: 70, part: 67 },
};

/** Parts that a header can count. */
const MOST_PARTS = 255;

const wellFormed = (text: string): string => text.replace(/\p{Surrogate}/gu, '\ufffd');

function unitsOf(character: string, coding: Coding): number {
  return coding === 'gsm-7' ? (septetsOfCharacter(character)?.length ?? 0) : character.length;
}

/** Whole characters only: neither an escape pair nor a surrogate pair is torn. */
function piecesOf(text: string, coding: Coding, most: number): string[] {
  const pieces: string[] = [];
  let piece = '';
  let units = 0;
  for (const character of text) {
    const more = unitsOf(character, coding);
    if (units + more > most) {
      pieces.push(piece);
      piece = '';
      units = 0;
    }
    piece += character;
    units += more;
  }
  return [...pieces, piece];
}

/**
 * The parts of a text, at least one. GSM 7-bit where every character is in that alphabet, else UCS-2 throughout.
 * Half a surrogate pair goes out as U+FFFD.
 *
 * @param reference for the parts of this text, 0 to 255
 * @throws SandlarderError OUT_OF_DOMAIN for a reference that is none, LIMIT_EXCEEDED for a text of over 255 parts
 */
export function splitIntoParts(text: string, reference: number): Part[] {
  if (!(Number.isInteger(reference) && reference >= 0 && reference <= 255))
    throw new SandlarderError('OUT_OF_DOMAIN', `expected a reference from 0 to 255, got ${reference}`);
  const whole = wellFormed(text);
  const septets = septetsOf(whole);
  const coding: Coding = septets === undefined ? 'ucs-2' : 'gsm-7';
  if ((septets ?? whole.length) <= SIZES[coding].single) return [{ coding, text: whole }];
  const pieces = piecesOf(whole, coding, SIZES[coding].part);
  const total = pieces.length;
  if (!(total <= MOST_PARTS))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `expected a text of at most ${MOST_PARTS} parts, got ${total}`,
    );
  return pieces.map((piece, index) => ({
    coding,
    text: piece,
    concatenation: { reference, total, number: index + 1 },
  }));
}
