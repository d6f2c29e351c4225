/** Humidity that jumps because a probe was calibrated anew: no water came. */
import { toHundredths } from './hours.js';
import type { DampnessState } from './state.js';

/** What is remembered of a probe's humidity, as if its values had been higher by so much all along, %RH. */
export function shiftDampness({ probes }: DampnessState, id: string, by_RH: number): void {
  const probe = probes[id];
  if (!probe) return;
  const moved = (value: number): number => toHundredths(value + by_RH);
  const { humidity, tail, front } = probe;
  humidity.hours = humidity.hours.map((value) => (value === null ? null : moved(value)));
  humidity.days = humidity.days.map(([level, uncertainty]) => [moved(level), uncertainty]);
  if (humidity.level_RH !== null) humidity.level_RH = moved(humidity.level_RH);
  if (humidity.reference)
    humidity.reference = { ...humidity.reference, level_RH: humidity.reference.level_RH + by_RH };
  probe.tail = tail.map(([at, temperature, value]) => [
    at,
    temperature,
    value === null ? null : value + by_RH,
  ]);
  if (front)
    probe.front = {
      ...front,
      before_RH: front.before_RH === null ? null : front.before_RH + by_RH,
      reached_RH: front.reached_RH === null ? null : front.reached_RH + by_RH,
    };
}
