/** When what develops in a bed will have developed, should it stay as warm as it is. */
import { requireInDomain } from '../../errors.js';
import { DAY_ms } from '../../model/time.js';
import { type Development, degreesAbove, type ThermalTimeSettings } from './developments.js';
import { nowOf, type ThermalTimeState } from './state.js';
import { type DegreeDaySum, isUncertain } from './sum.js';
import { BRIDGE_h } from './warmth.js';

/** days. Beyond, no bed is kept: it is unknown. Judgement. */
const HORIZON_days = 365;

/**
 * Days until so many more degree-days have come together.
 *
 * @param missing_C_days 0 or less where they have come together already
 * @param recentMean_C recent mean of the bed, °C; undefined where it is not known
 * @returns days, 0 at the least; undefined where that is unknown: no recent mean, too cold or too hot to develop, or
 * more than a year ahead
 * @throws SandlarderError OUT_OF_DOMAIN for NaN and infinity
 */
export function daysToCome(
  missing_C_days: number,
  development: Development,
  recentMean_C: number | undefined,
): number | undefined {
  requireInDomain('missing, °C days', missing_C_days, -Number.MAX_VALUE, Number.MAX_VALUE);
  if (missing_C_days <= 0) return 0;
  if (recentMean_C === undefined) return undefined;
  requireInDomain('recent mean, °C', recentMean_C, -Number.MAX_VALUE, Number.MAX_VALUE);
  const days = missing_C_days / degreesAbove(development, recentMean_C);
  return days <= HORIZON_days ? days : undefined;
}

/** One development of a bed, for people to see. */
export interface Outlook {
  readonly development: Development;
  readonly sum: DegreeDaySum;
  /** When the sum was reached, or will be, ms; null where unknown. */
  readonly expectedAt: number | null;
  readonly reached: boolean;
  /** Whether a part of the sum that counts rests on no reading, or the bed has been silent for too long. */
  readonly uncertain: boolean;
}

/**
 * The outlook of all developments, from the sums and the last known daily mean.
 *
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function outlook(state: ThermalTimeState, { developments }: ThermalTimeSettings): Outlook[] {
  const { daily_C, gap_h } = state.warmth;
  return developments.map((development) => {
    const sum = state.sums[development.name];
    const days = daysToCome(development.sum_C_days - sum.sum_C_days, development, daily_C ?? undefined);
    const ahead = days === undefined ? null : nowOf(state) + days * DAY_ms;
    return {
      development,
      sum,
      expectedAt: sum.reachedAt ?? ahead,
      reached: sum.reachedAt !== null,
      uncertain: gap_h > BRIDGE_h || isUncertain(sum),
    };
  });
}
