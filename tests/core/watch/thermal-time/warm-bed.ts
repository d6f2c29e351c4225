/** A bed of a given warmth, hour by hour. */
import { DAY_ms, HOUR_ms } from '../../../../services/core/model/time.js';
import {
  startThermalTime,
  stepThermalTime,
  type ThermalTimeSettings,
  type ThermalTimeState,
} from '../../../../services/core/watch/thermal-time/index.js';

/** 2026-05-04T08:00:00Z. */
export const FILLED = 1_777_881_600_000;

export const dayOf = (time: number): number => (time - FILLED) / DAY_ms;
export const timeOf = (day: number): number => FILLED + day * DAY_ms;

/** Takes so many hours from where the state stands. */
export function keptAt(
  hours: number,
  temperatureAt: number | undefined | ((hour: number) => number | undefined),
  from: ThermalTimeState = startThermalTime(FILLED),
  settings?: ThermalTimeSettings,
): ThermalTimeState {
  let state = from;
  for (let taken = 0; taken < hours; taken += 1) {
    const hour: number = state.hour === null ? FILLED : state.hour + HOUR_ms;
    const temperature_C = typeof temperatureAt === 'function' ? temperatureAt(hour) : temperatureAt;
    state = stepThermalTime(state, temperature_C, hour, settings);
  }
  return state;
}
