import { z } from 'zod';
import { LOSS_CAUSES } from '../../core/keeping/index.js';
import { IN_REASONS, STOCK_OUT_REASONS, stockBodySchema } from '../../core/model/stock.js';
import { formatTime } from '../../core/model/time.js';
import { HTTP_LIMITS } from '../limits.js';
import type { Likely, StockEntryView, StockQuery, StockView } from '../ports.js';
import { EATING_EXPECTED, eatingOf, eatingShape, isEatingWhole } from './eating.js';
import { countQuerySchema } from './query.js';
import { formatKnownTime, timeTextSchema } from './time.js';

/** One entry alone is a list of one. */
export const stockListSchema = z
  .preprocess(
    (body) => (Array.isArray(body) ? body : [body]),
    z.array(stockBodySchema).min(1).max(HTTP_LIMITS.writtenDown),
  )
  .meta({ description: 'Entries, all or none; one alone may be sent without the brackets' });

export const stockQuerySchema = z
  .strictObject({
    ...eatingShape,
    months: countQuerySchema(1, 12).optional().meta({ description: 'Over so many the rest is to be sold' }),
  })
  .refine(isEatingWhole, EATING_EXPECTED)
  .transform((query): StockQuery => ({ months: query.months, eating: eatingOf(query) }));

const entrySchema = z
  .object({
    id: z.string(),
    at: timeTextSchema,
    by: z.string(),
    kind: z.enum(['in', 'out', 'counter']),
    reason: z.string(),
    roots: z.number().int(),
    mass_kg: z.number().optional(),
    of: z.string().optional().meta({ description: 'Entry that a counter-entry takes back' }),
    origin: z.string().nullable().meta({
      description:
        'Id of the filling or inspection that it follows from; null where it was written by itself',
    }),
  })
  .meta({ id: 'StockEntry' });

type EntryAnswer = z.output<typeof entrySchema>;

const entryAnswer = ({ entry: { bed: _, at, ...rest }, origin }: StockEntryView): EntryAnswer => ({
  ...{ ...rest, at: formatTime(at), origin },
});

const leftSchema = z.number().int().nullable().meta({
  description: 'Roots in the bed; null where nobody wrote down what went in',
});

export const stockedSchema = z
  .object({ entries: z.array(entrySchema.extend({ isNew: z.boolean() })), left: leftSchema })
  .meta({ id: 'Stocked' });
export type StockedAnswer = z.output<typeof stockedSchema>;

export const stockedAnswer = ({
  entries,
  left,
}: {
  readonly entries: readonly (StockEntryView & { readonly isNew: boolean })[];
  readonly left: number | null;
}): StockedAnswer => ({
  entries: entries.map((one) => ({ ...entryAnswer(one), isNew: one.isNew })),
  left,
});

const totalOf = <Reasons extends readonly [string, ...string[]]>(reasons: Reasons) =>
  z.array(z.object({ reason: z.enum(reasons), roots: z.number().int(), mass_kg: z.number().nullable() }));

const likelySchema = z
  .object({
    low: z.number().nullable(),
    likely: z.number().nullable(),
    high: z.number().nullable(),
  })
  .nullable()
  .meta({ description: 'Between 10 and 90 %; a null in it: more than a year' });

export const stockSchema = z
  .object({
    bed: z.string(),
    since: timeTextSchema.nullable().meta({ description: 'Since when totals and losses count: the filling' }),
    left: leftSchema,
    leftMass_kg: z.number().nullable().meta({
      description:
        'What is left, by the mean mass of a root as it went in: roots get lighter in store; null where none was weighed',
    }),
    in: totalOf(IN_REASONS),
    out: totalOf(STOCK_OUT_REASONS),
    losses: z
      .array(z.object({ cause: z.enum(LOSS_CAUSES), share: z.number(), low: z.number(), high: z.number() }))
      .meta({
        description:
          'Share of the roots lost by each cause since the filling, from the roots looked at, with its 95 % interval',
      }),
    weeksOfFood: likelySchema,
    rootsPerMonth: likelySchema,
    notes: z.array(z.string()),
    entries: z.array(entrySchema),
  })
  .meta({ id: 'Stock', description: 'The ledger of a bed' });
export type StockAnswer = z.output<typeof stockSchema>;

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

const likelyAnswer = (band: Likely | null, digits: number): Likely | null => {
  if (!band) return null;
  const known = (value: number | null): number | null => (value === null ? null : rounded(value, digits));
  return { low: known(band.low), likely: known(band.likely), high: known(band.high) };
};

/** Rounded to what is known: weeks to tenths, roots whole. */
export const stockAnswer = (view: StockView): StockAnswer => ({
  bed: view.bed,
  since: formatKnownTime(view.since),
  left: view.left,
  leftMass_kg: view.leftMass_kg === null ? null : rounded(view.leftMass_kg, 1),
  in: view.totals.in.map((total) => ({ ...total })),
  out: view.totals.out.map((total) => ({ ...total })),
  losses: view.losses.map(({ cause, share, low, high }) => ({
    ...{ cause, share: rounded(share, 4), low: rounded(low, 4), high: rounded(high, 4) },
  })),
  weeksOfFood: likelyAnswer(view.weeksOfFood, 1),
  rootsPerMonth: likelyAnswer(view.rootsPerMonth, 0),
  notes: [...view.notes],
  entries: view.entries.map(entryAnswer),
});
