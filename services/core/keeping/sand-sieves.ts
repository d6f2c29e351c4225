/**
 * Openings of sieves by the number on their frame, mm.
 *
 * Source: ASTM E11. Those of 4, 10, 20, 40, 60, 100 and 200 seen in a stored problem sheet, the others from memory.
 */
import { SandlarderError } from '../errors.js';

export const SIEVE_OPENINGS_mm: Readonly<Record<number, number>> = {
  4: 4.75,
  5: 4,
  6: 3.35,
  7: 2.8,
  8: 2.36,
  10: 2,
  12: 1.7,
  14: 1.4,
  16: 1.18,
  18: 1,
  20: 0.85,
  25: 0.71,
  30: 0.6,
  35: 0.5,
  40: 0.425,
  45: 0.355,
  50: 0.3,
  60: 0.25,
  70: 0.212,
  80: 0.18,
  100: 0.15,
  120: 0.125,
  140: 0.106,
  170: 0.09,
  200: 0.075,
  230: 0.063,
  270: 0.053,
  325: 0.045,
  400: 0.038,
};

/** Openings that classes are cut at, mm: No. 4 and No. 200 (ASTM D2487). */
export const GRAVEL_FROM_mm = 4.75;
export const FINES_BELOW_mm = 0.075;

/** @throws SandlarderError OUT_OF_DOMAIN for a number that no sieve has */
export function openingOfSieve_mm(number: number): number {
  const opening_mm = SIEVE_OPENINGS_mm[number];
  if (opening_mm === undefined)
    throw new SandlarderError(
      'OUT_OF_DOMAIN',
      `sieve number must be one of ${Object.keys(SIEVE_OPENINGS_mm).join(', ')}, got ${number}`,
    );
  return opening_mm;
}
