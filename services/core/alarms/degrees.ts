/** Short messages write a plain C for degrees, whose sign is not in their alphabet; whatever else is read has the sign. */

/** A C behind a number stands for degrees. */
const BARE_C = /(\d)[ \u00a0]C(?![\p{L}\d])/gu;

/**
 * A text of a short message as it is read elsewhere, with °C in it.
 *
 * @param names that stand in it and stay as they are, as a bed's that is called `Pit 2 C`
 */
export function withDegrees(text: string, names: readonly string[] = []): string {
  const name = names.find((one) => one !== '' && text.includes(one));
  if (name === undefined) return text.replace(BARE_C, '$1 °C');
  const rest = names.slice(names.indexOf(name) + 1);
  return text
    .split(name)
    .map((part) => withDegrees(part, rest))
    .join(name);
}
