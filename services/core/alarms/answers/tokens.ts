/** An answer taken apart into words and numbers, in any script. */
import { fold } from './fold.js';

export type Token =
  | { readonly type: 'word'; readonly word: string; readonly before: string }
  | {
      readonly type: 'number';
      readonly value: number;
      /** More digits than a short number has are no number that is asked for. */
      readonly digits: number;
      /** What stands between it and the token before. */
      readonly before: string;
    };

/** Ethiopic numbers are no decimal digits: signs for 1 to 9, for 10 to 90 and for 100. */
const ETHIOPIC_ONE = 0x1369;
const ETHIOPIC_TEN = 0x1372;
const ETHIOPIC_HUNDRED = 0x137b;

function ethiopicValue(text: string): number {
  let value = 0;
  for (const sign of text) {
    const code = sign.codePointAt(0) ?? 0;
    if (code === ETHIOPIC_HUNDRED) value = Math.max(value, 1) * 100;
    else value += code >= ETHIOPIC_TEN ? (code - ETHIOPIC_TEN + 1) * 10 : code - ETHIOPIC_ONE + 1;
  }
  return value;
}

/** Decimal digits stand in runs of ten in ascending order, from 0 to 9 [Unicode 4.6]. */
function digitValue(digit: string): number {
  const code = digit.codePointAt(0) ?? 0;
  let steps = 0;
  while (/^\p{Nd}$/u.test(String.fromCodePoint(code - steps - 1))) steps += 1;
  return steps % 10;
}

function numberOf(text: string): number {
  if (/^[\u1369-\u137b]/.test(text)) return ethiopicValue(text);
  return [...text].reduce((value, digit) => value * 10 + digitValue(digit), 0);
}

/** Words are letters only: `ok3` are two tokens, as `6h` are. */
export function tokensOf(text: string): Token[] {
  const folded = fold(text);
  let end = 0;
  return [...folded.matchAll(/\p{Nd}+|[\u1369-\u137b]+|\p{L}+/gu)].map((match): Token => {
    const [found] = match;
    const before = folded.slice(end, match.index);
    end = match.index + found.length;
    if (/^\p{L}/u.test(found)) return { type: 'word', word: found, before };
    return { type: 'number', value: numberOf(found), digits: [...found].length, before };
  });
}
