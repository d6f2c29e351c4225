/** How a probe on a bench stands, in few words: settled, how long still, or that nobody knows. */
import type { Settling } from './settling.js';
import type { Earliest } from './settling-earliest.js';
import type { Stillness } from './settling-stillness.js';

/** Whole minutes, rounded up: a technician who comes back too early waits twice. */
export const minutesMore = (time_s: number): string =>
  `about ${Math.max(1, Math.ceil(time_s / 60))} min more`;

export const notBefore = ({ needs_min, left_s }: Earliest): string =>
  `not judged before ${needs_min} min; ${minutesMore(left_s)}`;

/** What coarse steps ask for. */
export function stillnessWords({ step, isKnown, needs_min }: Stillness, unit: string): string {
  const which = isKnown ? `steps of ${step} ${unit}` : `steps not seen yet, ${step} ${unit} taken`;
  return `${which}: needs ${needs_min} min of stillness`;
}

/** @param unit of the quantity */
export function waitingWords(found: Settling, unit: string): string {
  const { settled, remaining_s, window, earliest, stillness, shown } = found;
  if (settled) return 'settled';
  if (stillness !== undefined && remaining_s !== undefined)
    return `${stillnessWords(stillness, unit)}, ${minutesMore(remaining_s)}`;
  if (remaining_s !== undefined) return minutesMore(remaining_s);
  if (window !== undefined) return 'not yet: still moving, for how long is unknown';
  if (earliest === undefined)
    return 'not yet: too few readings, or too far apart: five within 2 h are needed';
  return `${shown === undefined ? 'no reading yet, ' : ''}${notBefore(earliest)}`;
}
