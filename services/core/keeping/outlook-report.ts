/** All that a bed's looks and temperatures say of the months to come, with what that rests on. */
import { DAY_ms } from '../model/time.js';
import { type BreakEven, breakEvenByMonth, type Holding, holdingAt, pricePerRoot } from './hold-or-sell.js';
import type { LossLook } from './loss-look.js';
import { type Band, leftByMonth, type MonthAhead, type MonthLeft, type Prospect } from './outlook.js';
import { type DailyMean, lossBelief, OUTLOOK_PRIOR } from './outlook-rate.js';
import { type Eating, rootsPerDay, rootsPerMonth, type WeeksOfFood, weeksOfFood } from './outlook-use.js';

/** Of the user alone: none is built in. */
export interface Prices {
  readonly price: number;
  readonly per: 'root' | 'kg';
  readonly costPerMonth: number;
  /** As a share. */
  readonly interestPerMonth: number;
  /** That the user expects, per the same. */
  readonly expectedPrice?: number | undefined;
}

export interface OutlookTask {
  /** Left now, by the ledger. */
  readonly roots: number;
  /** Of one root as it went in, kg; undefined where none was weighed. */
  readonly rootMass_kg: number | undefined;
  /** When the bed was filled, ms. */
  readonly since: number;
  readonly looks: readonly LossLook[];
  /** Daily means of the bed: of this season, and of the year before where there are any. In order. */
  readonly days: readonly DailyMean[];
  readonly now: number;
  /** How many, of 30 days. */
  readonly months: number;
  readonly eating?: Eating | undefined;
  readonly prices?: Prices | undefined;
}

/** Where the warmth of a month to come is taken from. */
export const WARMTH_FROM = ['the same days a year before', 'the last week', 'no readings'] as const;
export type WarmthFrom = (typeof WARMTH_FROM)[number];

export interface MonthOutlook extends MonthLeft {
  readonly warmthFrom: WarmthFrom;
}

export interface MonthHeld extends BreakEven {
  /** By the price that the user expects; null where none was said. */
  readonly holding: Holding | null;
}

export interface Outlook {
  readonly roots: number;
  /** Share of what is known of losses that rests on the bed's own looks, 0..1. */
  readonly ownShare: number;
  readonly looks: number;
  readonly months: readonly MonthOutlook[];
  readonly eaten_per_day: number | null;
  readonly weeksOfFood: WeeksOfFood | null;
  /** Roots that can be sold at the end of each month, so that none is left after the last. */
  readonly rootsPerMonth: Band;
  readonly holdOrSell: readonly MonthHeld[] | null;
  readonly priceOfRoot: number | null;
  readonly notes: readonly string[];
}

/** days. Months are counted alike. */
export const MONTH_days = 30;
const YEAR_ms = 365 * DAY_ms;
/** Of a month of the year before; fewer days say too little of it. Judgement. */
const LEAST_days = 10;
const RECENT_days = 7;

/**
 * The outlook.
 *
 * @throws SandlarderError OUT_OF_DOMAIN; BAD_REQUEST for kilograms where no root was weighed; TOO_FEW_SAMPLES for no month
 */
export function outlookOf(task: OutlookTask): Outlook {
  const { roots, looks, since, days, now, eating, prices, rootMass_kg } = task;
  const own = days.filter(({ at }) => at + DAY_ms > since);
  const belief = lossBelief(since, looks, own);
  const ahead = monthsAhead(task);
  const prospect: Prospect = { belief, roots, from: now, months: ahead.map(({ month }) => month) };
  const months = leftByMonth(prospect).map((month, index) => ({
    ...month,
    warmthFrom: ahead[index]?.from ?? 'no readings',
  }));
  const eaten = eating ? rootsPerDay(eating, rootMass_kg) : null;
  return {
    ...{ roots, ownShare: belief.ownShare, looks: looks.length, months },
    eaten_per_day: eaten,
    weeksOfFood: eaten === null ? null : weeksOfFood(prospect, eaten),
    rootsPerMonth: rootsPerMonth(prospect),
    ...soldOrHeld(roots, months, prices, rootMass_kg),
    notes: notesOn(belief.ownShare, looks.length, months),
  };
}

function monthsAhead({ days, now, months }: OutlookTask): { month: MonthAhead; from: WarmthFrom }[] {
  const recent_C = meanOf(days.filter(({ at }) => at >= now - (RECENT_days + 1) * DAY_ms));
  return Array.from({ length: months }, (_, index) => {
    const from = now + index * MONTH_days * DAY_ms;
    const to = from + MONTH_days * DAY_ms;
    const before = days.filter(({ at }) => at >= from - YEAR_ms && at < to - YEAR_ms);
    const then_C = before.length >= LEAST_days ? meanOf(before) : undefined;
    const known = then_C ?? recent_C;
    const source = then_C === undefined ? 'the last week' : 'the same days a year before';
    return known === undefined
      ? { month: { to, mean_C: OUTLOOK_PRIOR.at_C.value }, from: 'no readings' as const }
      : { month: { to, mean_C: known }, from: source };
  });
}

const meanOf = (days: readonly DailyMean[]): number | undefined =>
  days.length === 0 ? undefined : days.reduce((sum, { mean_C }) => sum + mean_C, 0) / days.length;

function soldOrHeld(
  roots: number,
  months: readonly MonthLeft[],
  prices: Prices | undefined,
  rootMass_kg: number | undefined,
): Pick<Outlook, 'holdOrSell' | 'priceOfRoot'> {
  if (!prices || roots === 0) return { holdOrSell: null, priceOfRoot: null };
  const { price, per, costPerMonth, interestPerMonth, expectedPrice } = prices;
  const ofRoot = (money: number): number => (per === 'root' ? money : pricePerRoot(money, rootMass_kg));
  const priceNow = ofRoot(price);
  const left = months.map((month) => month.left);
  const held = breakEvenByMonth({ roots, priceNow, costPerMonth, interestPerMonth, left });
  return {
    priceOfRoot: priceNow,
    holdOrSell: held.map((month) => ({
      ...month,
      holding: expectedPrice === undefined ? null : holdingAt(month, priceNow, ofRoot(expectedPrice)),
    })),
  };
}

function notesOn(ownShare: number, looks: number, months: readonly MonthOutlook[]): string[] {
  const { meanLoss_per_day, shape, q10, clustering } = OUTLOOK_PRIOR;
  return [
    `${Math.round(100 * ownShare)} % of what is known of this bed's losses rests on its own looks (${looks}); the rest on what is believed of stores: ${meanLoss_per_day.source}`,
    `the band holds 10 to 90 % of what is believed, by the rate and by chance (${shape.source}; ${clustering.value} ${clustering.unit}: ${clustering.source})`,
    `warmth counts by a factor of ${q10.value} for each 10 °C (${q10.source})`,
    'it knows nothing of rain that gets in, of rats or of thieves, and nothing of what is taken out',
    ...(months.some(({ warmthFrom }) => warmthFrom === 'no readings')
      ? [`no readings: the bed is taken to have ${OUTLOOK_PRIOR.at_C.value} °C`]
      : []),
    ...(months.some(({ outside }) => outside)
      ? ['a month is colder than 12 °C or warmer than 35 °C: losses are larger than this says']
      : []),
  ];
}
