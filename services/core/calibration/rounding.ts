/**
 * Numbers as a certificate shows them: an uncertainty with two significant digits, a value to the same place
 * [JCGM 100 7.2.6]. Rounded to the nearest, not up: with two digits that changes an uncertainty by 5 % at most.
 */
import { requireInDomain } from '../errors.js';

/** A smaller uncertainty is rounding of the arithmetic, and a larger one no measurement; °C, %RH or of a coefficient. */
const LEAST = 1e-9;
const GREATEST = 1e9;

/** Of a value whose uncertainty is not known. */
const BARE_DIGITS = 6;

/**
 * Place of the second significant digit of an uncertainty, counted after the decimal point: 3 for 0.05, -1 for 120.
 *
 * @param uncertainty 1e-9 to 1e9
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function placesOf(uncertainty: number): number {
  requireInDomain('uncertainty to round by', uncertainty, LEAST, GREATEST);
  // By the rounded number: 0.0996 is 0.10, with one place less than 0.099.
  return 1 - Number(uncertainty.toExponential(1).split('e')[1]);
}

/**
 * A value to the place of the second significant digit of its uncertainty.
 *
 * @param value finite
 * @param uncertainty 1e-9 to 1e9, in the unit of the value
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function roundTo(value: number, uncertainty: number): string {
  requireInDomain('value to round', value, -Number.MAX_VALUE, Number.MAX_VALUE);
  const places = placesOf(uncertainty);
  if (places >= 0) return withoutMinusZero(value.toFixed(places));
  const step = 10 ** -places;
  return withoutMinusZero(String(Math.round(value / step) * step));
}

const withoutMinusZero = (text: string): string => text.replace(/^-(0(?:\.0+)?)$/, '$1');

const isBelowArithmetic = (uncertainty: number): boolean => uncertainty >= 0 && uncertainty < LEAST;

/** An uncertainty with two significant digits; `0` where it is none but rounding of the arithmetic. */
export const uncertaintyText = (uncertainty: number): string =>
  isBelowArithmetic(uncertainty) ? '0' : roundTo(uncertainty, uncertainty);

/** A value by its uncertainty; with six significant digits where that is 0. */
export const valueText = (value: number, uncertainty: number): string =>
  isBelowArithmetic(uncertainty)
    ? String(Number(value.toPrecision(BARE_DIGITS)))
    : roundTo(value, uncertainty);

/** A value by its uncertainty, with a plus where it is above 0 as shown. */
export function signedText(value: number, uncertainty: number): string {
  const text = valueText(value, uncertainty);
  return Number(text) > 0 ? `+${text}` : text;
}
