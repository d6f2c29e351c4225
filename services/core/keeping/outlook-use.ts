/** How long a bed feeds those who eat from it, and how many roots a month it can sell. */
import { requireInDomain, SandlarderError } from '../errors.js';
import { DAY_ms } from '../model/time.js';
import {
  type Band,
  type MonthAhead,
  type Prospect,
  ratesOf,
  requireProspect,
  warmDaysAhead,
} from './outlook.js';
import { warmthFactor } from './outlook-rate.js';

/** What is eaten, as its eaters say: nobody's number is built in. */
export type Eating = { readonly roots_per_day: number } | { readonly kg_per_day: number };

/**
 * Roots a day.
 *
 * @param rootMass_kg of one root, kg; needed for what is given in kg. Roots lose mass while they are kept, so that
 * later more of them make a kilogram
 * @throws SandlarderError BAD_REQUEST where the mass is needed and not known; OUT_OF_DOMAIN for no eating
 */
export function rootsPerDay(eating: Eating, rootMass_kg: number | undefined): number {
  if ('roots_per_day' in eating) {
    requireInDomain('roots eaten a day', eating.roots_per_day, 0.01, 1e5);
    return eating.roots_per_day;
  }
  requireInDomain('kg eaten a day', eating.kg_per_day, 0.001, 1e5);
  if (rootMass_kg === undefined)
    throw new SandlarderError(
      'BAD_REQUEST',
      'eaten a day: expected roots, as the bed was not weighed when it was filled, got kg',
    );
  requireInDomain('mass of a root, kg,', rootMass_kg, 0.005, 10);
  return eating.kg_per_day / rootMass_kg;
}

/** days. Beyond, no bed is kept. Judgement, as of the sums of warmth. */
const HORIZON_days = 365;

export interface WeeksOfFood {
  /** Weeks for which there is enough each day; null where that is more than a year. */
  readonly low: number | null;
  readonly likely: number | null;
  readonly high: number | null;
}

/**
 * Weeks for which a bed gives so many roots a day, what rots meanwhile taken off. After the last month given the bed is
 * taken to stay as warm as in it.
 *
 * @param eaten_per_day roots
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES
 */
export function weeksOfFood(prospect: Prospect, eaten_per_day: number): WeeksOfFood {
  requireProspect(prospect);
  requireInDomain('roots eaten a day', eaten_per_day, 0.01, 1e5);
  const rates = ratesOf(prospect.belief);
  const weeksAt = (rate: number): number | null => {
    const days = daysOfFood(prospect, eaten_per_day, rate);
    return days === undefined ? null : days / 7;
  };
  return { low: weeksAt(rates.high), likely: weeksAt(rates.likely), high: weeksAt(rates.low) };
}

/** Days on which there is enough; undefined beyond the horizon. */
function daysOfFood({ roots, from, months }: Prospect, eaten: number, rate: number): number | undefined {
  warmDaysAhead({ from, months });
  let left = roots;
  for (let day = 0; day < HORIZON_days; day += 1) {
    if (!(left >= eaten)) return day;
    const { factor } = warmthFactor(monthAt(months, from + day * DAY_ms).mean_C);
    left = (left - eaten) * Math.exp(-rate * factor);
  }
  return undefined;
}

const monthAt = (months: readonly MonthAhead[], time: number): MonthAhead =>
  months.find(({ to }) => time < to) ?? (months.at(-1) as MonthAhead);

/**
 * Roots that can be sold at the end of each month, the same each time, so that none is left after the last.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES
 */
export function rootsPerMonth(prospect: Prospect): Band {
  requireProspect(prospect);
  const ends = warmDaysAhead(prospect);
  const rates = ratesOf(prospect.belief);
  /** A root sold then takes more than one from now: those that are lost until then. */
  const soldAt = (rate: number): number =>
    prospect.roots / ends.reduce((sum, warm_days) => sum + Math.exp(rate * warm_days), 0);
  return { low: soldAt(rates.high), likely: soldAt(rates.likely), high: soldAt(rates.low) };
}
