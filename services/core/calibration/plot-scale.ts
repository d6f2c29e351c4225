/** Round numbers along an axis. */
import { requireInDomain } from '../errors.js';

export interface Tick {
  readonly value: number;
  readonly text: string;
}

const MANTISSAS = [1, 2, 5, 10] as const;

/**
 * Ticks at multiples of 1, 2 or 5 times a power of ten: as many as fit.
 *
 * @param low below `high`
 * @param most ticks that may stand on the axis, 2 or more
 * @returns upwards, all within the axis
 * @throws SandlarderError OUT_OF_DOMAIN for an axis without length
 */
export function ticksOf(low: number, high: number, most: number): Tick[] {
  requireInDomain('length of an axis', high - low, Number.MIN_VALUE, Number.MAX_VALUE);
  requireInDomain('ticks on an axis', most, 2, 100);
  const least = (high - low) / most;
  const power = Math.floor(Math.log10(least));
  const mantissa = MANTISSAS.find((candidate) => candidate * 10 ** power >= least) ?? 10;
  const step = mantissa * 10 ** power;
  const places = Math.max(0, mantissa === 10 ? -power - 1 : -power);
  const ticks: Tick[] = [];
  for (let count = Math.ceil(low / step); count * step <= high; count += 1) {
    const value = count * step;
    ticks.push({ value, text: value.toFixed(places) });
  }
  return ticks;
}
