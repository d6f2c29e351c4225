/** Values of either quantity, as they are said. */
import type { Quantity } from '../api/types/bench.js';
import { celsius, celsiusMore, humidity, number } from '../words/numbers.js';
import { say } from '../words/say.js';

/** Digits that a working calibration is good for: hundredths of a degree, tenths of a %RH. */
const DIGITS: Readonly<Record<Quantity, number>> = { temperature: 2, humidity: 1 };

/** @param value °C or %RH */
export const measure = (quantity: Quantity, value: number, more = 0): string =>
  quantity === 'temperature'
    ? celsius(value, DIGITS.temperature + more)
    : humidity(value, DIGITS.humidity + more);

/** With its sign, for differences. */
export const difference = (quantity: Quantity, value: number): string =>
  quantity === 'temperature'
    ? celsiusMore(value, DIGITS.temperature)
    : `${value > 0 ? '+' : ''}${humidity(value, DIGITS.humidity)}`;

/** For a column whose head names the unit. */
export const bare = (quantity: Quantity, value: number, more = 0): string =>
  number(value, DIGITS[quantity] + more);

export const unitOf = (quantity: Quantity): string => (quantity === 'temperature' ? '°C' : '%RH');

export const nameOf = (quantity: Quantity): string => say(`bench.${quantity}`);
