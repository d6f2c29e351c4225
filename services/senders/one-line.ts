/** Text from outside, made fit for one line of a terminal or a log. */

/** Controls, and the marks that turn the direction of writing round: C0, C1, line and paragraph separators, bidi. */
const UNPRINTABLE = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu;

/** Puts a space for whatever could move the cursor, break the line or hide text; cuts at `most` characters. */
export function oneLine(text: string, most: number): string {
  const plain = text.replace(UNPRINTABLE, ' ').trim();
  return plain.length <= most ? plain : `${plain.slice(0, most - 3)}...`;
}
