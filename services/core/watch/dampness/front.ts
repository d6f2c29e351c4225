/**
 * A wet front that reaches a probe: humidity goes up to saturation within an hour or two, often with a change of
 * temperature. A sensor that fails at 100 % goes there in one single sample, without any change of temperature, and
 * stays without scatter: that is told as something to see to first, until another probe or its own life confirms it.
 */
import { HOUR_ms, MINUTE_ms } from '../../model/time.js';
import { robustScale } from '../sequential/index.js';
import { largestJump, seriesOf } from './front-samples.js';
import { valuesBefore } from './hours.js';
import { DAMPNESS } from './parameters.js';
import type { DampProbeState, FrontState } from './state.js';

/** Values before a change that may be a front: the last day but the hours that a front takes. */
function before(hours: readonly (number | null)[]): number[] {
  const from = DAMPNESS.front_h;
  return valuesBefore([...hours], from, from + DAMPNESS.frontBefore_h - 1);
}

/** Scatter of the change from hour to hour, never under what rounding leaves. */
function hourlyScatter(values: readonly number[], least: number): number {
  const changes = values.slice(1).map((value, at) => value - (values[at] ?? value));
  return changes.length > 0 ? Math.max(robustScale(changes).deviation, least) : least;
}

/** What the air outside shows in the hour. */
export interface OutsideAir {
  readonly temperature_C: number | undefined;
  readonly humidity_RH: number | undefined;
}

/** Steps over the least scatter that is believed, %RH and °C: a tenth and a hundredth is how probes tell values. */
const LEAST_RH = 0.1;
const LEAST_C = 0.02;

export type FoundFront = Pick<FrontState, 'sign' | 'before_RH' | 'reached_RH' | 'change_C'>;

/**
 * What the last two hours of a probe's humidity show: a front, or one that may be a broken sensor. Undefined where
 * nothing came, and in the hour of a jump after which too few samples tell what it was: the next hour does.
 *
 * @param least_RH rise over the highest hour of the day before
 * @param end end of the hour, ms
 */
export function frontByHumidity(
  probe: DampProbeState,
  outside: OutsideAir,
  least_RH: number,
  end: number,
): FoundFront | undefined {
  if (!mayHaveReached(probe)) return undefined;
  const day = before(probe.humidity.hours);
  const series = seriesOf(probe.tail, 'humidity');
  const now_RH = latest(series) ?? probe.humidity.hours.at(-1) ?? undefined;
  if (!(day.length >= DAMPNESS.frontNeeds_h) || now_RH === undefined) return undefined;
  const highest_RH = Math.max(...day);
  const needed_RH = Math.max(least_RH, DAMPNESS.frontScatters * hourlyScatter(day, LEAST_RH));
  if (!(now_RH >= DAMPNESS.frontReaches_RH && now_RH - highest_RH >= needed_RH)) return undefined;
  const change_C = changeOfTemperature(probe);
  if (liesBare(probe, outside, now_RH)) return undefined;
  const sign = signOf(probe, series, now_RH - highest_RH, change_C, end);
  return sign && { sign, before_RH: highest_RH, reached_RH: now_RH, change_C: change_C ?? null };
}

/** Cheaply: most hours of most probes are far from it. */
function mayHaveReached({ tail, humidity: { hours } }: DampProbeState): boolean {
  const reached = (value: number | null | undefined): boolean =>
    typeof value === 'number' && value >= DAMPNESS.frontReaches_RH;
  return reached(hours.at(-1)) || tail.slice(-2).some(([, , value]) => reached(value));
}

/** The lowest of the last quarter of an hour, so that one value does not carry it away. */
function latest(series: readonly (readonly [number, number])[]): number | undefined {
  const from = (series.at(-1)?.[0] ?? 0) - DAMPNESS.latest_min * MINUTE_ms;
  const last = series.filter(([at]) => at >= from).map(([, value]) => value);
  return last.length > 0 ? Math.min(...last) : undefined;
}

/** Temperature of this hour less that of the last hour before a front can have come, °C. */
function changeOfTemperature({ swing: { hours } }: DampProbeState): number | undefined {
  const [now, then] = [hours.at(-1), hours.at(-1 - DAMPNESS.front_h)];
  return typeof now === 'number' && typeof then === 'number' ? now - then : undefined;
}

function signOf(
  { swing, humidity }: DampProbeState,
  series: readonly (readonly [number, number])[],
  rise_RH: number,
  change_C: number | undefined,
  end: number,
): 'front' | 'front-or-broken' | undefined {
  const jump = largestJump(series);
  const [first] = series;
  const after = first ? series.slice(jump.at).map(([, value]) => value) : [humidity.hours.at(-1) ?? 0];
  const full = after.every((value) => value >= DAMPNESS.full_RH);
  const still = Math.max(...after) - Math.min(...after) <= DAMPNESS.fullScatter_RH;
  const atOnce = !first || jump.size >= DAMPNESS.atOnce * rise_RH;
  if (!(atOnce && full && still)) return 'front';
  const usual_C = hourlyScatter(before(swing.hours), LEAST_C) * Math.sqrt(DAMPNESS.front_h);
  const byWater_C = Math.max(DAMPNESS.waterChange_C, DAMPNESS.waterScatters * usual_C);
  if (change_C !== undefined && Math.abs(change_C) >= byWater_C) return 'front';
  const jumpedAt = series[jump.at]?.[0] ?? 0;
  return jumpedAt > end - DAMPNESS.telling_h * HOUR_ms ? undefined : 'front-or-broken';
}

/** A probe that came to show what the air outside shows is no longer in the sand. */
function liesBare({ tail, swing: { hours } }: DampProbeState, outside: OutsideAir, now_RH: number): boolean {
  const { within_C, within_RH, before_C } = DAMPNESS.air;
  const { temperature_C: air_C, humidity_RH: air_RH } = outside;
  const now = seriesOf(tail, 'temperature').at(-1)?.[1] ?? hours.at(-1);
  const then = hours.at(-1 - DAMPNESS.front_h);
  if (typeof now !== 'number' || typeof then !== 'number' || air_C === undefined || air_RH === undefined)
    return false;
  const asAir = Math.abs(now - air_C) <= within_C && Math.abs(now_RH - air_RH) <= within_RH;
  return asAir && Math.abs(then - air_C) > before_C;
}

/**
 * A step of temperature at a probe without humidity that is flat after it, and took more than one sample: water that
 * is cooler or warmer than the sand. A sensor's own step takes one sample.
 */
export function frontByTemperature(probe: DampProbeState): FoundFront | undefined {
  const { hours } = probe.swing;
  const [now, last, then] = [hours.at(-1), hours.at(-2), hours.at(-1 - DAMPNESS.front_h - 1)];
  if (typeof now !== 'number' || typeof last !== 'number' || typeof then !== 'number') return undefined;
  const change_C = last - then;
  const day = before(hours.slice(0, -1));
  if (!(day.length >= DAMPNESS.frontNeeds_h)) return undefined;
  const usual_C = largestMove(day);
  const least_C = Math.max(DAMPNESS.step_C, DAMPNESS.stepTimes * usual_C);
  if (!(Math.abs(change_C) >= least_C && Math.abs(change_C) <= DAMPNESS.stepMost_C)) return undefined;
  if (!(Math.abs(now - last) <= DAMPNESS.stepFlat * Math.abs(change_C))) return undefined;
  const series = seriesOf(probe.tail, 'temperature');
  const [first] = series;
  if (!(series.length >= DAMPNESS.stepSamples) || !first) return undefined;
  // The samples must show the step itself, from what was before it.
  if (!(Math.abs(first[1] - then) <= DAMPNESS.stepFlat * Math.abs(change_C))) return undefined;
  const jump = largestJump(series);
  if (Math.abs(jump.size) >= DAMPNESS.atOnce * Math.abs(change_C)) return undefined;
  return { sign: 'temperature-step', before_RH: null, reached_RH: null, change_C };
}

/** Whether a probe's temperature moved in the last hours by more than sand left alone does. */
export function hasMoved({ swing: { hours } }: DampProbeState): boolean {
  const [now, then] = [hours.at(-1), hours.at(-1 - DAMPNESS.stepAlone_h)];
  if (typeof now !== 'number' || typeof then !== 'number') return false;
  const usual_C = largestMove(before(hours.slice(0, -DAMPNESS.stepAlone_h)));
  return Math.abs(now - then) >= Math.max(DAMPNESS.step_C, DAMPNESS.stepTimes * usual_C);
}

/** Largest usual change in the hours that a front takes. */
function largestMove(values: readonly number[]): number {
  const moves = values.slice(DAMPNESS.front_h).map((value, at) => Math.abs(value - (values[at] ?? value)));
  return Math.max(0, ...moves);
}
