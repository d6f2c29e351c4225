/**
 * A humidity that jumps to the end of its range: a wet front, or a sensor that failed.
 *
 * A front takes several samples, or the temperature shows it, or the sensor still scatters. A failing sensor is there
 * in one sample, without any change of temperature, and stays without any scatter. Where samples are too far apart to
 * tell, or no temperature was measured, it is said to be one or the other.
 */
import { median } from 'simple-statistics';
import { HOUR_ms, MINUTE_ms } from '../../model/time.js';
import { QUALITY, type QualityPlace } from './limits.js';
import type { QualityState } from './state.js';

type Full = NonNullable<QualityState['full']>;

/** Takes the next humidity, before it is among those measured; a temperature only where it is usable. */
export function watchFullness(
  state: QualityState,
  at: number,
  humidity: number,
  temperature: number | undefined,
): void {
  state.full = state.full
    ? stillFull(state.full, state.place, at, humidity, temperature)
    : jumpedToFull(state, at, humidity);
}

function jumpedToFull(
  { humidity: before, temperature }: QualityState,
  at: number,
  value: number,
): Full | null {
  const [last, lastAt] = [before.measured.at(-1)?.[1], before.measured.at(-1)?.[0]];
  if (!(value >= QUALITY.full_RH) || last === undefined || lastAt === undefined) return null;
  if (!(value - last >= QUALITY.fullJump_RH) || before.recent.length === 0) return null;
  const rising_RH = last - median(before.recent.map(([, humidity]) => humidity));
  if (!(rising_RH < QUALITY.fullRise_RH)) return null;
  return {
    at,
    value,
    count: 1,
    quick: at - lastAt <= QUALITY.fullQuick_min * MINUTE_ms,
    temperature: temperatureBefore(temperature.recent, at),
    temperaturesSeen: 0,
    dead: false,
  };
}

function temperatureBefore(recent: readonly (readonly [number, number])[], at: number): number | null {
  const fresh = recent.filter(([then]) => at - then <= QUALITY.front_h * HOUR_ms && then < at);
  return fresh.length > 0 ? median(fresh.map(([, temperature]) => temperature)) : null;
}

function stillFull(
  full: Full,
  place: QualityPlace,
  at: number,
  humidity: number,
  temperature: number | undefined,
): Full | null {
  if (humidity !== full.value) return null;
  const soon = at - full.at <= QUALITY.front_h * HOUR_ms;
  const known = soon && temperature !== undefined && full.temperature !== null;
  if (known && Math.abs(temperature - (full.temperature ?? 0)) > QUALITY.front_C[place]) return null;
  const temperaturesSeen = full.temperaturesSeen + (known ? 1 : 0);
  const still_h = (at - full.at) / HOUR_ms;
  const dead =
    full.quick &&
    temperaturesSeen >= QUALITY.frontSamples &&
    still_h >= QUALITY.dead_h[place] &&
    full.count >= QUALITY.deadSamples;
  return { ...full, count: full.count + 1, temperaturesSeen, dead: full.dead || dead };
}
