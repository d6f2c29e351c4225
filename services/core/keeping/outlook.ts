/**
 * What will be left of a bed, as a band: the rate of loss is believed to lie between its 10 and 90 %, and chance moves
 * what is left besides. It is carried on from the bed's own looks and the temperatures it is taken to have; it knows
 * nothing of rain that gets in, or of rats.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { DAY_ms } from '../model/time.js';
import { normalScore } from '../watch/sequential/index.js';
import { gammaQuantile } from './outlook-gamma.js';
import { type LossBelief, OUTLOOK_PRIOR, warmthFactor } from './outlook-rate.js';

/** Between 10 % and 90 %, with the middle. */
export interface Band {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** A month, or any span, to come; it begins where the one before ends. */
export interface MonthAhead {
  /** ms. */
  readonly to: number;
  /** Mean that the bed is taken to have, °C: as it is now, or as it was in that month of another year. */
  readonly mean_C: number;
}

export interface MonthLeft extends MonthAhead {
  /** Roots left at its end. */
  readonly left: Band;
  /** Whether it is so cold or hot that losses are larger than this says. */
  readonly outside: boolean;
}

export interface Prospect {
  readonly belief: LossBelief;
  /** Roots there now. */
  readonly roots: number;
  /** Now, ms. */
  readonly from: number;
  /** In order, at least one. */
  readonly months: readonly MonthAhead[];
}

const TAIL = 0.1;
const DEVIATIONS_80 = normalScore(TAIL);

/** Rates of loss, a day at 22 °C: few, likely, many. */
export function ratesOf({ shape, rate }: LossBelief): Band {
  const at = (probability: number): number => gammaQuantile(shape, probability) / rate;
  return { low: at(TAIL), likely: at(0.5), high: at(1 - TAIL) };
}

/**
 * What will be left at the end of each month, if nothing is taken out.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for months out of order, temperatures of no bed, fewer than no roots
 */
export function leftByMonth(prospect: Prospect): MonthLeft[] {
  requireProspect(prospect);
  const rates = ratesOf(prospect.belief);
  return warmDaysAhead(prospect).map((warm_days, index) => {
    const month = prospect.months[index] as MonthAhead;
    const { outside } = warmthFactor(month.mean_C);
    return { ...month, left: leftAfter(prospect.roots, rates, warm_days), outside };
  });
}

/** The rate and chance are independent: their deviations add as squares. Within none and all. */
function leftAfter(roots: number, rates: Band, warm_days: number): Band {
  const at = (rate: number): number => roots * Math.exp(-rate * warm_days);
  const likely = at(rates.likely);
  const clusters = OUTLOOK_PRIOR.clustering.value;
  const byChance =
    roots === 0 ? 0 : DEVIATIONS_80 * Math.sqrt((clusters * likely * (roots - likely)) / roots);
  return {
    low: Math.max(0, likely - Math.hypot(likely - at(rates.high), byChance)),
    likely,
    high: Math.min(roots, likely + Math.hypot(at(rates.low) - likely, byChance)),
  };
}

/** From now to the end of each month, in days at 22 °C. */
export function warmDaysAhead({ from, months }: Pick<Prospect, 'from' | 'months'>): number[] {
  let sum = 0;
  return months.map(({ to, mean_C }, index) => {
    const start = months[index - 1]?.to ?? from;
    if (!(to > start))
      throw new SandlarderError(
        'OUT_OF_DOMAIN',
        `end of a month, ms: expected more than ${start}, got ${to}`,
      );
    sum += ((to - start) / DAY_ms) * warmthFactor(mean_C).factor;
    return sum;
  });
}

export function requireProspect({ roots, months }: Prospect): void {
  requireInDomain('roots', roots, 0, 1e6);
  if (months.length === 0)
    throw new SandlarderError('TOO_FEW_SAMPLES', 'months ahead: expected at least one, got none');
}
