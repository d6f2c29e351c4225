/** The GSM 7-bit default alphabet with its extension table: 3GPP TS 23.038 sections 6.2.1 and 6.2.1.1. */

/** By code, 0 to 127; the escape at 27 stands as U+001B. */
const BASIC =
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞ\x1bÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?' +
  '¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà';

export const ESCAPE = 0x1b;

const EXTENSION: ReadonlyMap<number, string> = new Map([
  [0x0a, '\f'],
  [0x14, '^'],
  [0x28, '{'],
  [0x29, '}'],
  [0x2f, '\\'],
  [0x3c, '['],
  [0x3d, '~'],
  [0x3e, ']'],
  [0x40, '|'],
  [0x65, '€'],
]);

const SEPTETS: ReadonlyMap<string, readonly number[]> = new Map([
  ...[...BASIC].flatMap((character, code): [string, number[]][] =>
    code === ESCAPE ? [] : [[character, [code]]],
  ),
  ...[...EXTENSION].map(([code, character]): [string, number[]] => [character, [ESCAPE, code]]),
]);

/** One or two septets; undefined where the character is in neither table. */
export function septetsOfCharacter(character: string): readonly number[] | undefined {
  return SEPTETS.get(character);
}

/** Septets of a text; undefined where a character is in neither table. */
export function toSeptets(text: string): number[] | undefined {
  const septets: number[] = [];
  for (const character of text) {
    const codes = SEPTETS.get(character);
    if (!codes) return undefined;
    septets.push(...codes);
  }
  return septets;
}

/**
 * Text of septets, whatever they are. An escape before a code that the extension table lacks gives the character of
 * the default alphabet (note 1 there); a second escape, and one at the end, give a space (note 2).
 */
export function fromSeptets(septets: Iterable<number>): string {
  let text = '';
  let escaped = false;
  for (const septet of septets) {
    const code = septet & 0x7f;
    if (escaped) text += code === ESCAPE ? ' ' : (EXTENSION.get(code) ?? BASIC[code] ?? '');
    else if (code !== ESCAPE) text += BASIC[code] ?? '';
    escaped = !escaped && code === ESCAPE;
  }
  return escaped ? `${text} ` : text;
}
