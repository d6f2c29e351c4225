/**
 * Damp by humidity: near saturation for long, or a rise towards it, at one probe clearly or at several together.
 *
 * One probe alone may creep by 3 %RH and stay; so it must pass the higher threshold or rise by more than that. Two
 * that rise need half as much each.
 */
import type { Thresholds } from '../../model/threshold.js';
import { type Against, AT_REST, type HoldRule, isDeveloping, nextHold } from './hold.js';
import { creep_RH, isSettled } from './humidity-level.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DampProbeState, HumidityState } from './state.js';

/** How a probe's humidity stands in one hour. */
export interface HumidityView {
  readonly state: DampProbeState;
  /** Mean of the hour, %RH. */
  readonly now_RH: number | undefined;
  readonly level_RH: number | undefined;
  readonly reference_RH: number | undefined;
  /** The level above the reference less what may be creep, %RH. */
  readonly rise_RH: number | undefined;
  /** Where the trend leads within the days of the forecast, %RH; undefined where it does not surely rise. */
  readonly forecast_RH: number | undefined;
  /** Risen by more than its own scatter, and by so much in %RH. */
  readonly risenTogether: boolean;
  readonly risenAlone: boolean;
}

/** @param at end of the hour, ms */
export function viewOf(
  bed: DampnessState,
  state: DampProbeState,
  uncertainty_RH: number | undefined,
  thresholds: Thresholds,
  at: number,
): HumidityView {
  const { humidity } = state;
  const level_RH = humidity.level_RH ?? undefined;
  const reference = isSettled(bed, state, at) ? (humidity.reference ?? undefined) : undefined;
  const rise_RH =
    reference && level_RH !== undefined
      ? level_RH - reference.level_RH - creep_RH(reference, uncertainty_RH)
      : undefined;
  const now_RH = humidity.hours.at(-1) ?? undefined;
  // A level that the hour itself has left again was a moist day.
  const lasts = now_RH !== undefined && level_RH !== undefined && now_RH >= level_RH - DAMPNESS.clear_RH;
  const risen = (least_RH: number): boolean =>
    reference !== undefined &&
    rise_RH !== undefined &&
    lasts &&
    rise_RH >= Math.max(least_RH, DAMPNESS.spreads * reference.spread_RH);
  return {
    state,
    now_RH,
    level_RH,
    reference_RH: reference?.level_RH,
    rise_RH,
    forecast_RH: forecastOf(state, level_RH),
    risenTogether: risen(thresholds.damp_rise_together_RH),
    risenAlone: risen(thresholds.damp_rise_RH),
  };
}

function forecastOf(
  { humidity: { trend } }: DampProbeState,
  level_RH: number | undefined,
): number | undefined {
  if (level_RH === undefined || trend === null || !(trend.least_RH_per_day > 0)) return undefined;
  return level_RH + trend.slope_RH_per_day * DAMPNESS.forecast_days;
}

/** What the other probes of the bed say. */
interface Others {
  readonly nearSaturation: boolean;
  readonly rising: boolean;
  readonly overAndRising: boolean;
}

const isRising = (view: HumidityView): boolean => view.risenTogether && view.forecast_RH !== undefined;

function othersOf(views: readonly HumidityView[], self: HumidityView, { damp_check_RH }: Thresholds): Others {
  const others = views.filter((view) => view !== self);
  const isOver = ({ level_RH }: HumidityView): boolean => level_RH !== undefined && level_RH >= damp_check_RH;
  return {
    nearSaturation: others.some(isOver),
    rising: others.some(isRising),
    overAndRising: others.some((view) => isOver(view) && view.risenTogether),
  };
}

/** Takes the hour's views into what each probe asks for. */
export function stepHumidity(views: readonly HumidityView[], thresholds: Thresholds, end: number): void {
  for (const view of views) stepProbe(view, othersOf(views, view, thresholds), thresholds, end);
}

const rule = (hold_h: number): HoldRule => ({ hold_h, clear_h: DAMPNESS.clear_h, dip_h: DAMPNESS.dip_h });

function stepProbe(view: HumidityView, others: Others, thresholds: Thresholds, end: number): void {
  const { damp_check_RH, damp_check_h, damp_unpack_RH, damp_unpack_h } = thresholds;
  const { humidity } = view.state;
  const { now_RH, level_RH } = view;
  const under = (threshold_RH: number): boolean =>
    now_RH !== undefined && now_RH < threshold_RH - DAMPNESS.clear_RH;
  const against = (above: boolean, gone: boolean): Against | undefined =>
    now_RH === undefined || level_RH === undefined ? undefined : { above, gone };
  const reaches = (threshold_RH: number): boolean => now_RH !== undefined && now_RH >= threshold_RH;

  const backed = view.risenAlone || others.nearSaturation || reaches(damp_unpack_RH);
  const check = against(reaches(damp_check_RH) && backed, under(damp_check_RH));
  humidity.check = nextHold(humidity.check, check, rule(damp_check_h), end);

  const early = against(isEarly(view, others, thresholds), isEarlyGone(view, thresholds));
  humidity.early = nextHold(humidity.early, early, rule(DAMPNESS.early_h), end);

  const news = view.reference_RH === undefined || view.risenTogether || others.nearSaturation;
  const wasGrave = isGrave(humidity);
  const unpack = against(reaches(damp_unpack_RH) && news, under(damp_unpack_RH));
  humidity.unpack = nextHold(humidity.unpack, unpack, rule(damp_unpack_h), end);

  const over = level_RH !== undefined && level_RH >= damp_check_RH && isRising(view);
  const together = against(over && others.overAndRising, under(damp_check_RH));
  humidity.together = nextHold(humidity.together, together, rule(DAMPNESS.early_h), end);
  // What unpacking was asked for is over: no look is asked for at what is left of it.
  if (wasGrave && !isGrave(humidity)) Object.assign(humidity, { check: AT_REST, early: AT_REST });
}

const isGrave = ({ unpack, together }: HumidityState): boolean =>
  unpack.since !== null || together.since !== null;

/** A rise that leads past the threshold within days, from where sound sand seldom is. */
function isEarly(view: HumidityView, others: Others, { damp_check_RH }: Thresholds): boolean {
  const { level_RH, forecast_RH } = view;
  if (level_RH === undefined || forecast_RH === undefined) return false;
  const leads = level_RH > damp_check_RH - DAMPNESS.forecastFrom_RH && forecast_RH >= damp_check_RH;
  return leads && (view.risenAlone || (view.risenTogether && others.rising));
}

function isEarlyGone({ level_RH, rise_RH }: HumidityView, thresholds: Thresholds): boolean {
  if (level_RH === undefined) return false;
  const low = level_RH < thresholds.damp_check_RH - DAMPNESS.forecastFrom_RH - DAMPNESS.clear_RH;
  return low || (rise_RH !== undefined && rise_RH < thresholds.damp_rise_together_RH / 2);
}

/** Whether anything at a probe is on its way to damp: such days are not learned from. */
export function isDampening({ humidity, front }: DampProbeState): boolean {
  const { check, early, unpack, together } = humidity;
  return front !== null || [check, early, unpack, together].some(isDeveloping);
}
