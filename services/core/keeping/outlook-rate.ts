/**
 * How fast a bed loses roots: what is believed before anything is seen, and what its own looks make of that.
 *
 * The rate is a share of the roots a day at one temperature; in a warmer bed a day counts for more. Nobody has
 * published losses of sand stores month by month. What is believed at first is a judgement, and it is weak: its middle
 * is a well-run store, its width takes in good and bad ones.
 */
import { requireInDomain, SandlarderError } from '../errors.js';
import { DAY_ms } from '../model/time.js';
import { type LossLook, lostAt } from './loss-look.js';
import { lossRuns } from './loss-standing.js';

export interface NamedValue {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** Each with the honest source of its value, to be shown beside an outlook. */
export const OUTLOOK_PRIOR = {
  meanLoss_per_day: {
    value: 0.0022,
    unit: 'share of the roots a day, at 22 °C',
    source:
      'judgement: 18 % in 3 months and 28 % in 5, from what trials of stores together suggest (10 to 25 % at 3 months, 20 to 45 % at 4 to 6); the one published figure for a sand box is 21 % rot in 11 weeks, its worst cultivar',
  },
  shape: {
    value: 1.5,
    unit: 'clusters of lost roots that the prior counts for',
    source: 'judgement: 4 to 34 % in 3 months lie within its 10 to 90 %',
  },
  at_C: {
    value: 22,
    unit: '°C',
    source: 'judgement: between the cool season of Malawi and the warm one of Northern Ghana',
  },
  q10: {
    value: 2,
    unit: 'factor for each 10 °C',
    source:
      'judgement: borrowed from the respiration of roots (2.0 to 2.2, from memory) and of produce in general (two to three times, textbook); rots differ, nearly all are quick between 20 and 29 °C',
  },
  clustering: {
    value: 5,
    unit: 'roots lost together',
    source:
      'judgement: rot and weevils pass from root to root, so that five lost roots tell no more than one lost by itself would',
  },
} as const satisfies Readonly<Record<string, NamedValue>>;

/** °C between which the factor is taken to hold. Below, chilling rots roots in its own way; above, heat does. */
const FACTOR_LEAST_C = 12;
const FACTOR_GREATEST_C = 35;

export interface WarmthFactor {
  /** Days at 22 °C that a day counts for. */
  readonly factor: number;
  /** Whether the temperature lies outside 12 to 35 °C: then it is the factor at the nearer end, and too small. */
  readonly outside: boolean;
}

/**
 * How much faster roots are lost at a temperature than at 22 °C.
 *
 * @param mean_C mean of a day or longer, -10 to 60 °C
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function warmthFactor(mean_C: number): WarmthFactor {
  requireInDomain('mean temperature, °C,', mean_C, -10, 60);
  const held_C = Math.min(FACTOR_GREATEST_C, Math.max(FACTOR_LEAST_C, mean_C));
  const factor = OUTLOOK_PRIOR.q10.value ** ((held_C - OUTLOOK_PRIOR.at_C.value) / 10);
  return { factor, outside: held_C !== mean_C };
}

/** Mean of a bed over one day. */
export interface DailyMean {
  /** Start of the day, ms. */
  readonly at: number;
  readonly mean_C: number;
}

/**
 * Days at 22 °C that a span counts for. Days without a mean count as the mean of those with one; where no day has one,
 * as 22 °C.
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function warmDays(days: readonly DailyMean[], from: number, to: number): number {
  requireInDomain('end of a span, ms,', to, from, Number.MAX_VALUE);
  const factors = days.map(({ at, mean_C }) => ({
    factor: warmthFactor(mean_C).factor,
    share: Math.max(0, Math.min(to, at + DAY_ms) - Math.max(from, at)) / DAY_ms,
  }));
  const usual =
    factors.length === 0 ? 1 : factors.reduce((sum, { factor }) => sum + factor, 0) / factors.length;
  const known = factors.reduce((sum, { share }) => sum + share, 0);
  const measured = factors.reduce((sum, { share, factor }) => sum + share * factor, 0);
  return measured + ((to - from) / DAY_ms - known) * usual;
}

/** What is believed of the rate: a gamma distribution. */
export interface LossBelief {
  readonly shape: number;
  /** Days at 22 °C times roots, over the clustering. */
  readonly rate: number;
  /** Share of the shape that rests on the bed's own looks, 0..1: how much it knows of itself. */
  readonly ownShare: number;
}

const PRIOR_SHAPE = OUTLOOK_PRIOR.shape.value;
const PRIOR_RATE = PRIOR_SHAPE / OUTLOOK_PRIOR.meanLoss_per_day.value;

export const PRIOR_BELIEF: LossBelief = Object.freeze({ shape: PRIOR_SHAPE, rate: PRIOR_RATE, ownShare: 0 });

/**
 * The belief after a bed's looks. What a look finds was lost since all roots were sorted last. Roots that were lost
 * count half of that time, as nobody knows when they were.
 *
 * @param filledAt ms, before the first look
 * @param looks in order of time
 * @param days daily means of the bed, each day once
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function lossBelief(
  filledAt: number,
  looks: readonly LossLook[],
  days: readonly DailyMean[],
): LossBelief {
  const clustering = OUTLOOK_PRIOR.clustering.value;
  let shape = PRIOR_SHAPE;
  let rate = PRIOR_RATE;
  requireOrder(filledAt, looks);
  for (const { from, looks: those } of lossRuns(filledAt, looks))
    for (const { look } of those) {
      const lost = lostAt(look);
      shape += lost / clustering;
      rate += ((look.looked - lost / 2) * warmDays(days, from, look.at)) / clustering;
    }
  return Object.freeze({ shape, rate, ownShare: 1 - PRIOR_RATE / rate });
}

function requireOrder(filledAt: number, looks: readonly LossLook[]): void {
  looks.forEach(({ at }, index) => {
    const from = looks[index - 1]?.at ?? filledAt;
    if (!(at > from))
      throw new SandlarderError('OUT_OF_DOMAIN', `look: expected a time after ${from}, got ${at}`);
  });
}
