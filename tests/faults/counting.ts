/** What a case counts, and how it fails. */

/** In the order in which they are told. */
export type Counts = Readonly<Record<string, number | string>>;

/** Something was lost, doubled, or not said. */
export class NotHeld extends Error {}

/** @throws NotHeld */
export function holds(isSo: boolean, expected: string): void {
  if (!isSo) throw new NotHeld(`expected ${expected}`);
}

/** @throws NotHeld where something was lost or is there twice */
export function same(what: string, expected: number | string, got: number | string): void {
  holds(expected === got, `${what}: ${expected}, got ${got}`);
}
