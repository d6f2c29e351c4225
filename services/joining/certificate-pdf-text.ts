/**
 * Text in the letters that the built-in fonts of PDF have (WinAnsiEncoding, ISO 32000-1 annex D, from memory).
 *
 * The PDF library writes any other letter as digits that make the rest of the line unreadable, so that none may reach
 * it: the nearest letters stand for it, or its code point in brackets.
 */

/** Beyond Latin-1 [ISO 32000-1 D.2]. */
const BEYOND_LATIN_1 = 'ƒ–—‘’‚“”„†‡•…€‰‹›ˆ™Œœ˜ŠšŸŽž';

/** What has no base letter of its own, or is better told otherwise: hooked letters of Hausa and Fula, and signs. */
const NEAREST: ReadonlyMap<string, string> = new Map(
  Object.entries({
    Ɓ: 'B',
    ɓ: 'b',
    Ɗ: 'D',
    ɗ: 'd',
    Ƙ: 'K',
    ƙ: 'k',
    Ƴ: 'Y',
    ƴ: 'y',
    Ŋ: 'N',
    ŋ: 'n',
    Ɲ: 'N',
    ɲ: 'n',
    Ɛ: 'E',
    ɛ: 'e',
    Ɔ: 'O',
    ɔ: 'o',
    ı: 'i',
    Ł: 'L',
    ł: 'l',
    Đ: 'D',
    đ: 'd',
    ʼ: '’',
    ꞌ: '’',
    μ: 'µ',
    Ω: 'ohm',
    '−': '-',
    '‐': '-',
    '‑': '-',
    '≤': '<=',
    '≥': '>=',
    '≈': '~',
    '→': '->',
    '←': '<-',
    '℃': '°C',
    '√': 'sqrt',
    '∞': 'infinite',
    '\u2028': ' ',
    '\u2029': ' ',
  }),
);

function isWritable(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return (
    (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff) || BEYOND_LATIN_1.includes(character)
  );
}

const codePoint = (character: string): string =>
  `[U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`;

/** The letter without its marks; undefined where it is made of something else. */
function baseOf(character: string): string | undefined {
  const base = character.normalize('NFD').replace(/\p{Mn}+/gu, '');
  return base.length > 0 && [...base].every(isWritable) ? base : undefined;
}

const nearest = (character: string): string =>
  NEAREST.get(character) ?? baseOf(character) ?? codePoint(character);

/** Line ends and tabs are blanks here; letters with their marks apart are put together where that makes one. */
const asOneLine = (text: string): string => text.replace(/[\t\n\v\f\r\u0085]+/g, ' ').normalize('NFC');

/** Marks that no letter has with it in one sign: the letter alone stands for both, as in `baseOf`. */
const MARKED = /(\p{L})\p{Mn}+/gu;

/** The text in letters that the fonts have. */
export const pdfText = (text: string): string =>
  [...asOneLine(text).replace(MARKED, '$1')]
    .map((character) => (isWritable(character) ? character : nearest(character)))
    .join('');

/** Whether `pdfText` writes it as it is. */
export const isPdfText = (text: string): boolean => [...asOneLine(text)].every(isWritable);
