/** Reads numbers as people type them: with a point or a comma. */

/** Empty where nothing was typed, NaN where it is no number. */
export function typedNumber(text: string): number | undefined {
  const plain = text
    .trim()
    .replace(/[\s\u00a0\u202f]/g, '')
    .replace(',', '.')
    .replace('\u2212', '-');
  if (plain === '') return undefined;
  return /^[+-]?(?:\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
}
