/** Numbers and measures as the language of this device writes them. */
import { locale } from './language.js';
import { say } from './say.js';

const formats = new Map<string, Intl.NumberFormat>();

/** @param digits behind the point, always so many */
export function number(value: number, digits = 0): string {
  const id = `${locale()}/${digits}`;
  const format =
    formats.get(id) ??
    new Intl.NumberFormat(locale(), { minimumFractionDigits: digits, maximumFractionDigits: digits });
  formats.set(id, format);
  // What rounds to nothing has no sign.
  return format.format(Number(value.toFixed(digits)) === 0 ? 0 : value);
}

/** @param value °C */
export const celsius = (value: number, digits = 1): string =>
  say('parts.degrees', { value: number(value, digits) });

/** With its sign, as for an excess. @param value °C */
export const celsiusMore = (value: number, digits = 1): string =>
  say('parts.degrees', { value: `${value > 0 ? '+' : ''}${number(value, digits)}` });

/** @param value % */
export const humidity = (value: number, digits = 0): string =>
  say('parts.humidity', { value: number(value, digits) });

/** @param value cm */
export const centimetres = (value: number, digits = 0): string =>
  say('parts.centimetres', { value: number(value, digits) });

/** @param value kg */
export const kilograms = (value: number, digits = 0): string =>
  say('parts.kilograms', { value: number(value, digits) });

/** @param value litres */
export const litres = (value: number, digits = 0): string =>
  say('parts.litres', { value: number(value, digits) });

/**
 * What a temperature feels like to a hand, whose skin has 32 to 35 °C (from memory). The borders are judgement.
 *
 * @param value °C
 */
export function feelsLike(value: number): string {
  if (!(value >= 15)) return say('parts.feelsCold');
  if (!(value >= 21)) return say('parts.feelsCool');
  if (!(value >= 27)) return say('parts.feelsEven');
  return say(value >= 32 ? 'parts.feelsWarm' : 'parts.feelsLukewarm');
}
