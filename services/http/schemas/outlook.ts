/** What will be left of a bed, in questions and answers. */
import { z } from 'zod';
import { type Band, HOLDING, WARMTH_FROM } from '../../core/keeping/index.js';
import { formatTime } from '../../core/model/time.js';
import type { OutlookQuery, OutlookView } from '../ports.js';
import { EATING_EXPECTED, eatingOf, eatingShape, isEatingWhole } from './eating.js';
import { countQuerySchema, numberQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

const price = () => numberQuerySchema(0.000_001, 1_000_000_000).optional();

export const outlookQuerySchema = z
  .strictObject({
    months: countQuerySchema(1, 12).default(6),
    ...eatingShape,
    price: price().meta({ description: 'Of a root now, in your money: none is built in' }),
    pricePerKg: price().meta({ description: 'Instead: of a kg' }),
    costPerMonth: numberQuerySchema(0, 1_000_000_000).default(0),
    interestPercent: numberQuerySchema(0, 100).default(0).meta({ description: 'Of a month' }),
    expectedPrice: price().meta({ description: 'That you expect later, of the same' }),
  })
  .superRefine((query, context) => {
    if (!isEatingWhole(query)) context.addIssue({ code: 'custom', ...EATING_EXPECTED });
    if (query.price !== undefined && query.pricePerKg !== undefined)
      context.addIssue({
        code: 'custom',
        path: ['pricePerKg'],
        message: 'expected price or pricePerKg, got both',
      });
    const isPriced = query.price !== undefined || query.pricePerKg !== undefined;
    if (
      !isPriced &&
      (query.expectedPrice !== undefined || query.costPerMonth > 0 || query.interestPercent > 0)
    )
      context.addIssue({
        code: 'custom',
        path: ['price'],
        message: 'expected the price of now beside it, got none',
      });
  });

/** The question that a query puts. */
export function outlookQuery(query: z.output<typeof outlookQuerySchema>): OutlookQuery {
  const { months, price: ofRoot, pricePerKg, costPerMonth, interestPercent, expectedPrice } = query;
  const now = ofRoot ?? pricePerKg;
  const eating = eatingOf(query);
  return {
    months,
    ...(eating && { eating }),
    ...(now !== undefined && {
      prices: {
        ...{ price: now, per: ofRoot === undefined ? 'kg' : 'root', costPerMonth, expectedPrice },
        interestPerMonth: interestPercent / 100,
      },
    }),
  };
}

const bandSchema = z.object({ low: z.number(), likely: z.number(), high: z.number() });
const weeks = z.number().nullable().meta({ description: 'Weeks; null for more than a year' });
const rise = z
  .number()
  .nullable()
  .meta({ description: 'As a share of the price of now; null where none does' });

export const outlookSchema = z
  .object({
    bed: z.string(),
    name: z.string(),
    at: timeTextSchema,
    since: timeTextSchema.meta({ description: 'When it was filled' }),
    roots: z.int().meta({ description: 'Left now, by the ledger' }),
    ownShare: z
      .number()
      .meta({ description: "Share of what is known of losses that rests on the bed's own looks" }),
    looks: z.int(),
    months: z
      .array(
        z.object({
          to: timeTextSchema,
          mean_C: z.number(),
          warmthFrom: z.enum(WARMTH_FROM),
          left: bandSchema,
          outside: z.boolean().meta({ description: 'So cold or hot that losses are larger than this says' }),
        }),
      )
      .meta({
        description: 'Of 30 days; left is what there is between 10 and 90 %, if nothing is taken out',
      }),
    eatenPerDay: z.number().nullable(),
    weeksOfFood: z.object({ low: weeks, likely: weeks, high: weeks }).nullable(),
    rootsPerMonth: bandSchema.meta({
      description: 'That can be sold at the end of each month, so that none is left after the last',
    }),
    priceOfRoot: z.number().nullable(),
    holdOrSell: z
      .array(
        z.object({
          month: z.int(),
          rise: z.object({ ifFewAreLost: rise, likely: rise, ifManyAreLost: rise }),
          breakEvenPrice: z.number().nullable().meta({ description: 'Of a root then, at the likely loss' }),
          holding: z.enum(HOLDING).nullable().meta({ description: 'At the price that is expected' }),
        }),
      )
      .nullable()
      .meta({ description: 'By how much the price must rise until holding gives as much as selling now' }),
    notes: z.array(z.string()).meta({ description: 'What all this rests on' }),
  })
  .meta({
    id: 'Outlook',
    description: 'What will be left of a bed, as a band that says how little it knows',
  });

export type OutlookAnswer = z.output<typeof outlookSchema>;

const digits = (value: number, count: number): number => Number(value.toFixed(count));
const band = ({ low, likely, high }: Band): Band => ({
  low: digits(low, 1),
  likely: digits(likely, 1),
  high: digits(high, 1),
});
const known = (value: number | null, count: number): number | null =>
  value === null ? null : digits(value, count);

/** Rounded to what is known: roots to tenths, weeks to tenths, °C to hundredths. */
export function outlookAnswer({ bed, at, since, outlook }: OutlookView): OutlookAnswer {
  const { roots, ownShare, looks, months, eaten_per_day, weeksOfFood: food, priceOfRoot, notes } = outlook;
  return {
    ...{ bed: bed.id, name: bed.name, at: formatTime(at), since: formatTime(since), roots, looks },
    ownShare: digits(ownShare, 3),
    months: months.map(({ to, mean_C, warmthFrom, left, outside }) => ({
      ...{ to: formatTime(to), mean_C: digits(mean_C, 2), warmthFrom, left: band(left), outside },
    })),
    eatenPerDay: known(eaten_per_day, 3),
    weeksOfFood: food && {
      ...{ low: known(food.low, 1), likely: known(food.likely, 1), high: known(food.high, 1) },
    },
    rootsPerMonth: band(outlook.rootsPerMonth),
    priceOfRoot: known(priceOfRoot, 6),
    holdOrSell: outlook.holdOrSell && [...heldAnswer(outlook.holdOrSell, priceOfRoot ?? 0)],
    notes: [...notes],
  };
}

const heldAnswer = (held: NonNullable<OutlookView['outlook']['holdOrSell']>, priceOfRoot: number) =>
  held.map(({ month, rise: { ifFewAreLost, likely, ifManyAreLost }, holding }) => ({
    month,
    rise: {
      ...{ ifFewAreLost: known(ifFewAreLost, 4), likely: known(likely, 4) },
      ifManyAreLost: known(ifManyAreLost, 4),
    },
    breakEvenPrice: likely === null ? null : Number((priceOfRoot * (1 + likely)).toPrecision(6)),
    holding,
  }));
