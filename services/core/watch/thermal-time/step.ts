/** A bed's thermal time, hour by hour. */
import { requireInDomain, SandlarderError } from '../../errors.js';
import { EARLIEST_TIME_ms, HOUR_ms, hourOf, LATEST_TIME_ms } from '../../model/time.js';
import { DEFAULT_SETTINGS, type DevelopmentName, type ThermalTimeSettings } from './developments.js';
import { nextLook } from './next-look.js';
import { eachSum, type ThermalTimeState } from './state.js';
import { addToSum, type DegreeDaySum, NO_SUM } from './sum.js';
import { countedHour, takeHour } from './warmth.js';

/**
 * The state after the next hour. Hours come in order, each once, empty ones too.
 *
 * @param hourlyMean_C of the bed, °C in [-55, 125]; undefined for an hour without. The warmest usable probe gives the
 * earliest look: roots beside it are as warm
 * @param hour its start, ms; the first may come later than the filling: what lies between is in no sum
 * @throws SandlarderError OUT_OF_DOMAIN, also for an hour that is not the next or lies before the filling
 * @remarks A gap is bridged by the last known daily mean: for 72 h as if it had been measured, after that as an
 * assumption that is counted apart, so that a silent probe does not stop the clock of what grows.
 */
export function stepThermalTime(
  state: ThermalTimeState,
  hourlyMean_C: number | undefined,
  hour: number,
  settings: ThermalTimeSettings = DEFAULT_SETTINGS,
): ThermalTimeState {
  requireNextHour(state, hour);
  const warmth = takeHour(state.warmth, hourlyMean_C);
  const counted = countedHour(warmth, hourlyMean_C);
  const end = hour + HOUR_ms;
  const sumAfter = (name: DevelopmentName): DegreeDaySum => {
    const development = settings.developments.find((each) => each.name === name);
    const sum = state.hour === null ? withLateStart(state, hour, name) : state.sums[name];
    return development ? addToSum(sum, development, counted, end) : sum;
  };
  const after = { ...state, hour, warmth, sums: eachSum(sumAfter) };
  const look = nextLook(after, settings);
  return Object.freeze({ ...after, due: look.dueAt <= end ? look : null });
}

/** Hours between the filling and the first one taken are in no sum. */
function withLateStart(
  { sums, filledAt }: ThermalTimeState,
  hour: number,
  name: DevelopmentName,
): DegreeDaySum {
  return { ...sums[name], unknown_h: sums[name].unknown_h + (hour - hourOf(filledAt)) / HOUR_ms };
}

/** What an inspection says that counts here. */
export interface Look {
  /** ms. */
  readonly at: number;
  readonly opened: boolean;
  readonly repacked: boolean;
}

/**
 * The state after an inspection, given once the hour that holds it has been taken.
 *
 * An opened bed begins the two weeks anew. A repacked one begins its sprouting sum anew, since sprouts are rubbed off
 * (the next may come sooner than the first: dormancy is over, and nobody has published by how much). The weevils' sums go
 * on: eggs and larvae are inside the roots, where no repacking reaches them. What was not opened, or lies before the
 * last look or the filling, changes nothing.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for a time that is none
 */
export function inspectThermalTime(
  state: ThermalTimeState,
  { at, opened, repacked }: Look,
): ThermalTimeState {
  requireInDomain('inspection, ms', at, EARLIEST_TIME_ms, LATEST_TIME_ms);
  if (!opened || at < state.lookedAt) return state;
  const looked = (name: DevelopmentName): DegreeDaySum => {
    const sum = state.sums[name];
    if (repacked && name === 'sprouting') return NO_SUM;
    return Object.freeze({ ...sum, atLook_C_days: sum.sum_C_days });
  };
  return Object.freeze({ ...state, lookedAt: at, sums: eachSum(looked), due: null });
}

function requireNextHour({ hour: last, filledAt }: ThermalTimeState, hour: number): void {
  const wanted = last === null ? hourOf(Math.max(hour, filledAt)) : last + HOUR_ms;
  if (hour === wanted) return;
  throw new SandlarderError('OUT_OF_DOMAIN', `hour, ms: expected ${wanted}, got ${hour}`);
}
