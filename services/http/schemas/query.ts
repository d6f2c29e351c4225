/** Parts that queries share. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';

const DIGITS = /^-?\d{1,15}$/;

/** Only decimal digits are a number: '', '1e3' and '0x10' stay text, and are refused as such. */
const digitsToNumber = (value: unknown): unknown =>
  typeof value === 'string' && DIGITS.test(value) ? Number(value) : value;

/** A whole number in a query, within its bounds. */
export function countQuerySchema(least: number, most: number) {
  return z.preprocess(digitsToNumber, z.number().int().min(least).max(most));
}

const DECIMAL = /^\d{1,15}(\.\d{1,15})?$/;

const decimalToNumber = (value: unknown): unknown =>
  typeof value === 'string' && DECIMAL.test(value) ? Number(value) : value;

/** A number in a query, whole or with a decimal point, within its bounds. */
export function numberQuerySchema(least: number, most: number) {
  return z.preprocess(decimalToNumber, z.number().min(least).max(most));
}

const WORDS: Readonly<Record<string, boolean>> = { true: true, false: false };

const wordToBoolean = (value: unknown): unknown =>
  typeof value === 'string' && Object.hasOwn(WORDS, value) ? WORDS[value] : value;

/** `true` or `false` in a query. */
export const yesQuerySchema = z.preprocess(wordToBoolean, z.boolean());

/** Ids with commas between, at most so many, each once. */
export function idsQuerySchema(most: number) {
  return z
    .string()
    .transform((text) => text.split(','))
    .pipe(
      z
        .array(idSchema)
        .max(most)
        .refine((ids) => new Set(ids).size === ids.length, { message: 'expected each id once' }),
    );
}
