/** Entries of a bed's stock: what went in, what came out, and what takes an entry back. None is ever changed. */
import { z } from 'zod';
import { idSchema } from './id.js';
import { OUT_REASONS } from './inspection-detail.js';
import { timeSchema } from './time.js';
import { whoSchema } from './who.js';

export const IN_REASONS = ['filled', 'added', 'put-back'] as const;
/** `missing`: fewer were there than the entries say, as after rats or thieves. */
export const STOCK_OUT_REASONS = [...OUT_REASONS, 'missing'] as const;

export type InReason = (typeof IN_REASONS)[number];
export type StockOutReason = (typeof STOCK_OUT_REASONS)[number];

const common = {
  /** Given by the device that it was written on, so that what is sent twice is kept once. */
  id: z.uuid('expected a UUID').toLowerCase(),
  at: timeSchema,
  roots: z.number().int().positive().max(1_000_000),
  /** As weighed; absent where it was not. */
  mass_kg: z.number().positive().max(1_000_000).optional(),
  by: whoSchema,
};

const inShape = { ...common, kind: z.literal('in'), reason: z.enum(IN_REASONS) };
const outShape = { ...common, kind: z.literal('out'), reason: z.enum(STOCK_OUT_REASONS) };
const counterShape = {
  ...common,
  kind: z.literal('counter'),
  /** Why the entry was wrong. */
  reason: z.string().trim().min(1).max(200),
  /** Entry that is taken back, in whole or in part. */
  of: z.uuid('expected a UUID').toLowerCase(),
};
const bed = idSchema;

export const stockEntrySchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...inShape, bed }).readonly(),
  z.strictObject({ ...outShape, bed }).readonly(),
  z.strictObject({ ...counterShape, bed }).readonly(),
]);

export type StockEntry = z.output<typeof stockEntrySchema>;
export type StockOut = Extract<StockEntry, { readonly kind: 'out' }>;
export type CounterEntry = Extract<StockEntry, { readonly kind: 'counter' }>;

/** An entry in the body of `POST /api/beds/{bed}/stock`. */
export const stockBodySchema = z.discriminatedUnion('kind', [
  z.strictObject(inShape).readonly(),
  z.strictObject(outShape).readonly(),
  z.strictObject(counterShape).readonly(),
]);
export type StockBody = z.output<typeof stockBodySchema>;
