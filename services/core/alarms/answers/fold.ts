/** Takes off what people write differently: case, accents, hooks, apostrophes, wide letters. */

/** Hooked letters of Hausa, which do not decompose. */
const HOOKED: Readonly<Record<string, string>> = { ɓ: 'b', ɗ: 'd', ƙ: 'k', ƴ: 'y' };

/** Compatibility decomposition [UAX 15], without marks; then one spelling of what is often mistyped. */
export function fold(text: string): string {
  return text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[ɓɗƙƴ]/g, (letter) => HOOKED[letter] ?? letter)
    .replace(/['’‘ʼ`´]/g, '')
    .replace(/\b0k\b/g, 'ok');
}
