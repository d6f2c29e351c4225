/** Numbers on the command line, refused with the name of their flag. */
import { SandlarderError } from '../core/errors.js';

/** The least number above 0 stands for "above 0": it is a bound that nobody would type. */
const spanOf = (low: number, high: number): string =>
  low === Number.MIN_VALUE ? `above 0, up to ${high}` : `from ${low} to ${high}`;

/** @throws SandlarderError WRONG_USAGE unless the text is a number within the bounds */
export function readNumber(flag: string, text: string, low: number, high: number): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!(value >= low && value <= high))
    throw new SandlarderError(
      'WRONG_USAGE',
      `${flag}: expected a number ${spanOf(low, high)}, got ${JSON.stringify(text)}`,
    );
  return value;
}

/** @throws SandlarderError WRONG_USAGE unless the text is a whole number within the bounds */
export function readWhole(flag: string, text: string, low: number, high: number): number {
  const value = readNumber(flag, text, low, high);
  if (!Number.isInteger(value))
    throw new SandlarderError(
      'WRONG_USAGE',
      `${flag}: expected a whole number from ${low} to ${high}, got ${JSON.stringify(text)}`,
    );
  return value;
}
