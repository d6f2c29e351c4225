/** Parts that queries share. */
import { z } from 'zod';

const DIGITS = /^-?\d{1,15}$/;

/** Only decimal digits are a number: '', '1e3' and '0x10' stay text, and are refused as such. */
const digitsToNumber = (value: unknown): unknown =>
  typeof value === 'string' && DIGITS.test(value) ? Number(value) : value;

/** A whole number in a query, within its bounds. */
export function countQuerySchema(least: number, most: number) {
  return z.preprocess(digitsToNumber, z.number().int().min(least).max(most));
}
