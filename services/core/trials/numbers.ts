/** Numbers as a report prints them. */

/** p is never printed as 0. */
export const pText = (p: number): string => (p < 0.0001 ? 'p < 0.0001' : `p = ${p.toFixed(4)}`);

/** Digits after the point that an uncertain figure is worth: those of its spread to two digits. */
export function decimalsFor(spread: number): number {
  if (!(Number.isFinite(spread) && spread > 0)) return 3;
  return Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(spread))));
}

/** A number with as many digits after the point, and no minus before a nought. */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}
